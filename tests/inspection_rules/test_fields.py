"""The base of the records: validators that are put together at their first use."""

import subprocess
import sys

# Threads that switch as often as they can, each with another record that holds the others.
RACE = """
import sys, threading
from pydantic import ValidationError
from inspection_rules.judgement import Judgement
from inspection_rules.item import Item
from inspection_rules.record import Inspection
from inspection_rules.rounds import Round
from inspection_rules.standing import Judged

sys.setswitchinterval(1e-6)
together, said = threading.Barrier(8), []

def use(kind):
    together.wait()
    for read, nothing in ((kind.model_validate, {}), (kind.model_validate_json, "{}")):
        try:
            read(nothing)
        except ValidationError:
            said.append("refused")
        except Exception as error:
            said.append(repr(error))

kinds = (Judged, Inspection, Judgement, Item, Round)
threads = [threading.Thread(target=use, args=(kinds[number % 5],)) for number in range(8)]
for one in threads:
    one.start()
for one in threads:
    one.join()
print(*said, sep="\\n")
"""


def test_threads_that_use_a_record_first_at_the_same_time_all_get_its_validator() -> None:
    for _ in range(6):  # it takes some tries to meet in the wrong moment
        said = subprocess.run([sys.executable, "-c", RACE], capture_output=True, text=True, check=True).stdout
        assert said.splitlines() == ["refused"] * 16, said
