"""How many sayings come out right, by what they are about: `python -m tests.sayings`."""

from collections import Counter, defaultdict

from tests.sayings.judging import judged, rows

FILES = {
    "held.jsonl": "written before the reading was built, in view while it was mended",
    "unseen.jsonl": "by somebody else, first judged when the reading stood",
    "harder.jsonl": "the same, later, with rarer words",
    "fourth.jsonl": "later still, written without a look at the phrase book, and judged once before mending",
    "fifth.jsonl": "the same once more, of usual talk only, judged once before mending",
    "sixth.jsonl": "of many frames, judged once before mending",
    "seventh.jsonl": "by a stranger to the book, as said in the south and in Canada, judged before mending",
    "eighth.jsonl": "by another, as said in Scotland, Ireland and Wales, judged before mending",
}


def main() -> None:
    """Print a table for each file."""
    for name, about in FILES.items():
        groups: dict[str, Counter[str]] = defaultdict(Counter)
        for row in rows(name):
            groups[row["group"]][judged(row)] += 1
        print(f"{name}: {about}")
        for group, counts in groups.items():
            print(f"  {group}: " + ", ".join(f"{kind} {count}" for kind, count in counts.most_common()))
        total = sum(groups.values(), Counter[str]())
        count = total.total()
        print(
            f"  all {count}: "
            + ", ".join(f"{kind} {100 * n / count:.1f} %" for kind, n in total.most_common())
        )


if __name__ == "__main__":
    main()
