"""What a phone loads at its start stays light."""

import subprocess
import sys

import pytest


@pytest.mark.parametrize("package", ["app.figures", "app.reports"])
def test_importing_it_loads_no_screen_and_no_document_library(package: str) -> None:
    script = f"import sys, {package}; print(sorted({{'kivy', 'fpdf', 'PIL', 'sqlalchemy'}} & set(sys.modules)))"
    done = subprocess.run([sys.executable, "-c", script], capture_output=True, text=True, check=True)
    assert done.stdout.strip() == "[]"
