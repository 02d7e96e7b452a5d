"""Errors that reach a person: each carries the sentence to speak and the exit status."""


class Problem(Exception):
    """Something went wrong; the message says what, where and what to do, and can be spoken."""

    exit_status = 1


class DeviceProblem(Problem):
    """A microphone, headphones or the sound library is missing or went away."""

    exit_status = 3


class ModelProblem(Problem):
    """The speech model is missing or isn't the one that was asked for."""

    exit_status = 4


class DataProblem(Problem):
    """A file is damaged beyond repair, or was written by a newer version."""

    exit_status = 5
