"""Keeps the speech model: fetches it, checks it, and says where it is."""

from voicecoach.model_store import another
from voicecoach.model_store.store import NAMED_BY, fetch, model_path, ways, wrong_with

__all__ = ["NAMED_BY", "another", "fetch", "model_path", "ways", "wrong_with"]
