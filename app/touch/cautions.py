"""What must be read before the tool is used; shown at the first start and whenever it changes."""

from app.language import mark

CAUTIONS = (
    mark(
        "This tool helps a trained person. It does not replace the maker's instructions, local law or a licensed "
        "examiner; where they are stricter, they decide."
    ),
    mark("It judges what you saw and measured, and nothing else. What was not examined is not passed."),
    mark(
        "Every number is doubtful by some amount. Until your own measurement study is entered, the tool reckons with "
        "defaults, and says so."
    ),
    mark("For slip of a buried splice there is no published limit. What is judged there is the trade's practice."),
    mark("It gives no strength in per cent and no remaining life: nobody can read those from outside."),
)
