"""Field types of the records: quantities as written, short texts, hashes, and the frozen base."""

from collections.abc import Iterator
from datetime import UTC, date, datetime
from threading import RLock
from typing import Annotated, Any

from pydantic import (
    AfterValidator,
    AwareDatetime,
    BaseModel,
    ConfigDict,
    GetCoreSchemaHandler,
    GetJsonSchemaHandler,
    StringConstraints,
)
from pydantic.json_schema import JsonSchemaValue
from pydantic_core import CoreSchema, PydanticCustomError, core_schema

from inspection_rules.quantity import Angle, Dimension, Quantity, QuantityError, parse, parse_angle

# Stored as text for ever: PostgreSQL takes no NUL, and a terminal obeys control characters. A text may have
# lines, a name may not. A lone surrogate is no text to pydantic in the first place.
_LINES = r"^[^\x00-\x08\x0b-\x1f\x7f-\x9f]*$"
_ONE_LINE = r"^[^\x00-\x1f\x7f-\x9f\u2028\u2029]*$"
EARLIEST, LATEST = 1900, 2200
Text = Annotated[str, StringConstraints(strip_whitespace=True, max_length=2000, pattern=_LINES)]
Name = Annotated[str, StringConstraints(strip_whitespace=True, min_length=1, max_length=120, pattern=_ONE_LINE)]
Hash = Annotated[str, StringConstraints(pattern="^[0-9a-f]{64}$")]


# Held while validators are put together, which happens at their first use: pydantic 2.12 lets two threads do it to the
# same class at once, and one of them then finds it half made.
BUILDING = RLock()


class Model(BaseModel):
    """Base of every record: frozen, no unknown fields, no silent conversions of numbers to texts."""

    # Building every validator would be a good part of the program's start, and most starts need few of them.
    model_config = ConfigDict(frozen=True, extra="forbid", str_strip_whitespace=True, defer_build=True)

    @classmethod
    def model_rebuild(cls, **how: Any) -> bool | None:
        """Put the validator together; a thread that needs it meanwhile waits."""
        with BUILDING:
            return super().model_rebuild(**how)


def build_validators(kind: type[Model] = Model) -> Iterator[type[Model]]:
    """Put the validators of all records together, one for each step: for a moment in which nobody waits."""
    for one in kind.__subclasses__():
        one.model_rebuild()
        yield one
        yield from build_validators(one)


def _sane_year(value: date) -> date:
    if not EARLIEST <= value.year <= LATEST:
        raise PydanticCustomError(
            "year", "the year {year} is no year of this work; check the date", {"year": value.year}
        )
    return value


def _to_utc(value: datetime) -> datetime:
    _sane_year(value)
    return value.astimezone(UTC)


Day = Annotated[date, AfterValidator(_sane_year)]
Moment = Annotated[AwareDatetime, AfterValidator(_to_utc)]


class _Written:
    """Pydantic annotation: a text that `parse` or `parse_angle` reads, kept as it was written."""

    def __init__(self, dimension: Dimension | None, *, signed: bool = False) -> None:
        self.dimension, self.signed = dimension, signed

    def __get_pydantic_core_schema__(self, source: Any, handler: GetCoreSchemaHandler) -> CoreSchema:
        return core_schema.no_info_plain_validator_function(
            self._read, serialization=core_schema.plain_serializer_function_ser_schema(str)
        )

    def __get_pydantic_json_schema__(self, schema: CoreSchema, handler: GetJsonSchemaHandler) -> JsonSchemaValue:
        if self.dimension is None:
            return {
                "type": "string",
                "description": "an angle with its datum",
                "examples": ["60° from horizontal"],
            }
        examples = {
            "length": "24 mm",
            "force": "24 kN",
            "temperature": "60 °C",
            "fraction": "10 %",
            "count": "4",
        }
        return {
            "type": "string",
            "description": f"a {self.dimension} with its unit, as written",
            "examples": [examples[self.dimension]],
        }

    def _read(self, value: object) -> Quantity | Angle:
        if isinstance(value, Quantity | Angle):
            value = value.text
        try:
            if self.dimension is None:
                return parse_angle(str(value))
            return parse(value, self.dimension, signed=self.signed)  # type: ignore[arg-type]
        except QuantityError as error:
            raise PydanticCustomError("quantity", "{why}", {"why": str(error)}) from None


Length = Annotated[Quantity, _Written("length")]
Force = Annotated[Quantity, _Written("force")]
Temperature = Annotated[Quantity, _Written("temperature", signed=True)]
SlingAngle = Annotated[Angle, _Written(None)]


class _AnyQuantity(_Written):
    """A reading's quantity: which dimension it must have is the observation's business."""

    def __init__(self) -> None:
        super().__init__("length")

    def _read(self, value: object) -> Quantity:
        try:
            return parse(value.text if isinstance(value, Quantity) else value, signed=True)  # type: ignore[arg-type]
        except QuantityError as error:
            raise PydanticCustomError("quantity", "{why}", {"why": str(error)}) from None

    def __get_pydantic_json_schema__(self, schema: CoreSchema, handler: GetJsonSchemaHandler) -> JsonSchemaValue:
        return {
            "type": "string",
            "description": "a number with its unit, as written",
            "examples": ["24 mm", "4"],
        }


AnyQuantity = Annotated[Quantity, _AnyQuantity()]
