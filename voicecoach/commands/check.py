"""`voicecoach check`: tries every part and says what to do about what doesn't work."""

import click

from voicecoach import voices_check
from voicecoach.checks import Finding, device_lines, tried
from voicecoach.printed import put


@click.command("check")
@click.option(
    "--microphone", metavar="DEVICE", help="The microphone to try; the default one if none is named."
)
@click.option(
    "--headphones", metavar="DEVICE", help="The headphones to try; the default ones if none are named."
)
@click.option("--voices", is_flag=True, help="Instead, hear the same sentence in each English voice.")
def command(microphone: str | None, headphones: str | None, voices: bool) -> int:
    """Try the speech model, the voice, a spoken round trip, the microphone and the headphones.

    Speak while the microphone is tried, to see its level. Exit status 0: the main
    job can run. 3: a microphone or headphones are missing. 4: the speech model is missing.
    """
    if voices:
        for line in voices_check.tried(headphones):
            put(line)
        return 0
    findings = []
    for finding in tried(microphone, headphones):
        put(finding.line)
        findings.append(finding)
    for line in device_lines():
        put(line)
    put(summary(findings))
    return max(finding.exit_status for finding in findings)


def summary(findings: list[Finding]) -> str:
    """What can be done with the parts that work."""
    broken = {finding.part for finding in findings if not finding.works}
    if not broken:
        return "Everything works. You can run voicecoach listen."
    if "Speech model" in broken or "Spoken round trip" in broken:
        return (
            "Only typed notes can be taken, with voicecoach tell. "
            "Put right what is named above, then check again."
        )
    return (
        "Recordings and typed notes can be taken: voicecoach hear, voicecoach tell. "
        "To run voicecoach listen, put right what is named above, then check again."
    )
