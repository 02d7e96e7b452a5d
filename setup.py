"""Puts the model's manifest and the scenarios into the package when a wheel is built.

In a checkout both lie beside the package. All the rest of the packaging is in pyproject.toml.
"""

import shutil
from pathlib import Path

from setuptools import setup
from setuptools.command.build_py import build_py


class BuildWithData(build_py):
    """Also copies what lies beside the package in a checkout."""

    def run(self) -> None:
        """Build, then copy."""
        super().run()
        if not self.editable_mode:
            package = Path(self.build_lib) / "voicecoach"
            (package / "models").mkdir(parents=True, exist_ok=True)
            shutil.copy("models/manifest.json", package / "models")
            ignore = shutil.ignore_patterns("__pycache__", "*.py")
            shutil.copytree("scenarios", package / "scenarios", ignore=ignore, dirs_exist_ok=True)


setup(cmdclass={"build_py": BuildWithData})
