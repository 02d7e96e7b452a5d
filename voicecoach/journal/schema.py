"""Print the JSON Schema of a line of the journal: `python -m voicecoach.journal.schema`."""

import json

from voicecoach.journal.values import Line

if __name__ == "__main__":
    print(json.dumps(Line.model_json_schema(), indent=1))
