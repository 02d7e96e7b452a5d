"""Live use: microphones, keyboard and headphones joined to the conversation by one small loop."""
