"""Write the schema files."""

from voicecoach.schemas import LINES, file, schema

for name in LINES:
    file(name).write_text(schema(name), encoding="utf-8")
