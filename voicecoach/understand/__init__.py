"""`Heard` in, ranked notes out.

What comes in: one `Heard`, and `Expected`: whose bowl is due, which bowls lie, which question is open. What
goes out: `Ranked`, the meanings from the likeliest down, with a doubt that has to be asked about first
where there is one; or `Unclear`, with the reason: chatter, something missing, a contradiction, nothing
certain.

People put the pieces of a note in any order, leave out small words and correct themselves half-way, and the
ear gives some twenty transcripts of each utterance. So a line is not matched against sentences alone. Every
piece that the phrase book knows is found in it once (`chart`), pieces are put together in any order (`bag`,
`free`), whole sentences are tried beside them (`commands`), and each way to read the line has a cost: small
for what is usual, larger for what is only possible, and for words that are left over.

Then the hypotheses vote (`deciding`). Each gives its belief to what it may mean; beliefs of one meaning
are added up, whatever the words were; what is unlikely on this green keeps less of its belief
(`plausible`). The decision compares prices, all in questions: what a note filed wrongly costs, what a
question back costs, what a note costs that was meant and is lost (`costs`). A note is accepted where that
is cheapest; it is asked about where one answer settles it; talk between people is dropped in silence.

Three doubts have three different answers, and none stands for another: not heard ("say it again"), heard
but incomplete ("how far?"), heard but unlikely ("yes or no?").

This stage may not know how the head lies beyond what `Expected` says, and it changes nothing: the same
`Heard` and the same `Expected` always give the same answer. It asks no clock; what was said before, and how
long ago, comes in with the call.
"""
