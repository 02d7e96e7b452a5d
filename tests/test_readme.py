"""The README's lists are those of the data."""

from tests.readme import README, written


def test_the_readmes_lists_are_written_from_the_data() -> None:
    text = README.read_text(encoding="utf-8")
    assert written(text) == text, "run: python -m tests.readme"
