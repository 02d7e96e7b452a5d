"""A place said back as it was called from another bowl."""

from voicecoach.describe.called import called_hour, called_words
from voicecoach.describe.distances import as_called
from voicecoach.phrasebook.wording import words
from voicecoach.understand.values import DIRECTIONS, Where


def beside_words(where: Where, bowl: str, bowl_m: float) -> str:
    """What was called from another bowl, such as `a foot short of our second`.

    Args:
        where: The place as called, seen from the mat.
        bowl: The name of the bowl that it was called from.
        bowl_m: Diameter of a bowl, metres, for what was called in widths of one.
    """
    if where.along_m is not None:
        both = called_words(where.model_copy(update={"remarks": ()}), bowl_m)
        return words("beside.both", both=both, bowl=bowl)
    touching = where.gap_m is None and "touching" in where.remarks
    distance = "" if where.gap_m is None else as_called(where.gap_m, where.unit, bowl_m)
    if where.hour is not None:
        hour = called_hour(where.hour, where.hour_width)
        return words(
            f"beside.hour.{'touching' if touching else 'apart'}", distance=distance, hour=hour, bowl=bowl
        )
    *first, last = [remark for remark in where.remarks if remark in DIRECTIONS and remark != "jack high"]
    ways = words("called.and").join([*(words(f"remark.{way}") for way in first), words(f"beside.of.{last}")])
    if touching:
        return words("beside.touching", ways=ways, bowl=bowl)
    level = "jack high" in where.remarks
    return words("beside.level" if level else "beside.ways", distance=distance, ways=ways, bowl=bowl)
