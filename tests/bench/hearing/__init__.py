"""How well the ear hears: a spoken corpus, made by script, and the table of what came of it."""
