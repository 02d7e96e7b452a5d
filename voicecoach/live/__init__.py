"""Live use: microphones, keyboard and headphones joined to the conversation by one small loop.

What comes in: utterances from each microphone, typed lines, and notices about devices, all through one
queue. What goes out: lines on the terminal, and sentences to the director's and the player's headphones.

There is one thread for each thing that has to wait: one listens to a microphone, one speaks into a pair of
headphones, one reads the keyboard. They share little but the queue. The loop takes one item at a time,
hands it to the conversation (which journals it) and then has the answer shown and spoken. Because nothing
is carried out beside that loop, the order of the journal is the order of what happened.

The rule for everything here is that nobody is left in front of a program that looks alive and is deaf. A
microphone that goes away is told once, looked for again and named when it is back, and so is one that gives
nothing but silence, one whose sound can't be followed in time, a computer that slept, a voice that failed.
An error in one of the threads is written to the log and said, and the thread goes on.

"Stop" is acted on while it is still being said: the voice must fall silent at once. Otherwise the voice is
cut off only for what makes its words stale. What the microphone hears of the program's own voice is never a
note (`echo`).

This package may use the clock, devices and threads, and decides nothing about the game: it may not ask what
a note means beyond what the conversation says of it.
"""
