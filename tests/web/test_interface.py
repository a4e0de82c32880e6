"""The open interface answers in the shapes that its description promises."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING, Any

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from inventory import __version__
from inventory.web.acts import ACTS
from inventory.web.api.openapi import description
from inventory.web.api.questions import QUESTIONS
from tests.web.conftest import ask
from tests.web.test_acts import REFUSALS, ROWS
from tests.web.test_pages import happen

if TYPE_CHECKING:
    from tests.web.conftest import House, Phone

DESCRIPTION = description(__version__, ["T2"])
TYPES = {"string": str, "integer": int, "boolean": bool, "array": list, "object": dict}


def misfits(value: Any, shape: dict[str, Any], at: str = "") -> list[str]:  # noqa: ANN401
    """Return where a document differs from its shape; knows what `shapes.py` uses, no more."""
    if "$ref" in shape:
        shape = DESCRIPTION["components"]["schemas"]["Refusal"]
    if "anyOf" in shape:
        return [] if value is None else misfits(value, shape["anyOf"][0], at)
    if not is_of(value, shape["type"]):
        return [f"{at}: {value!r} is no {shape['type']}"]
    match shape["type"]:
        case "array":
            return [each for one in value for each in misfits(one, shape["items"], f"{at}[]")]
        case "object":
            return _in_object(value, shape, at)
        case _:
            return _in_text(value, shape, at)


def is_of(value: object, kind: str) -> bool:
    return type(value) is TYPES[kind]


def _in_object(value: dict[str, Any], shape: dict[str, Any], at: str) -> list[str]:
    known = shape["properties"]
    wrong = [f"{at}: lacks {name}" for name in shape["required"] if name not in value]
    wrong += [f"{at}: has {name}" for name in value if name not in known]
    for name in value.keys() & known.keys():
        wrong += misfits(value[name], known[name], f"{at}.{name}")
    return wrong


def _in_text(value: object, shape: dict[str, Any], at: str) -> list[str]:
    if "enum" in shape and value not in shape["enum"]:
        return [f"{at}: {value!r} is none of {shape['enum']}"]
    if shape.get("format") == "date" and not re.fullmatch(r"\d{4}-\d\d-\d\d", str(value)):
        return [f"{at}: {value!r} is no day"]
    return []


def shape_of(method: str, name: str, status: int) -> dict[str, Any]:
    answers = DESCRIPTION["paths"][f"/api/v1/{{kit}}/{name}"][method]["responses"]
    shape: dict[str, Any] = answers[str(status)]["content"]["application/json"]["schema"]
    return shape


QUERIES = [
    ("overview", ""),
    ("crates", ""),
    ("crate", "?crate=1"),
    ("findings", ""),
    ("findings", "?crate=1 OF 2"),
    ("part", "?number=rib-1"),
    ("bins", ""),
    ("bins", "?name=a"),
    ("plan", ""),
    ("step", "?code=10-01"),
    ("short", ""),
    ("history", ""),
    ("history", "?part=RIB-1"),
    ("claims", ""),
    ("deliveries", ""),
    ("lots", ""),
]
WRONG = [
    ("crate", "", 422),
    ("crate", "?crate=9", 404),
    ("part", "?number=NONE", 404),
    ("part", "?number=+", 422),
    ("step", "?code=99", 404),
    ("bins", "?name=Z", 404),
    ("cutting", "?step=99", 404),
    ("lots", "?part=RIB-1", 422),
    ("crates", "?x=1", 422),
    ("part", "?number=%00", 422),
]


@pytest.mark.parametrize(("name", "query"), QUERIES, ids=[f"{n}{q}" for n, q in QUERIES])
def test_answer_has_the_promised_shape(stocked_house: House, name: str, query: str) -> None:
    phone = stocked_house.phone()
    happen(phone)
    answer = phone.get(f"/api/v1/T2/{name}{query}")
    assert answer.status_code == 200
    assert misfits(answer.json(), shape_of("get", name, 200)) == []
    assert answer.json()


@pytest.mark.parametrize(("name", "query", "status"), WRONG, ids=[f"{n}{q}" for n, q, _ in WRONG])
def test_refusal_has_the_promised_shape(phone: Phone, name: str, query: str, status: int) -> None:
    answer = phone.get(f"/api/v1/T2/{name}{query}")
    assert answer.status_code == status
    assert misfits(answer.json(), shape_of("get", name, status)) == []


def test_acts_answer_and_refuse_in_the_promised_shapes(stocked_house: House) -> None:
    phone = stocked_house.phone()
    for place, (name, fields, _) in enumerate(ROWS):
        answer = ask(phone, name, slip=f"shape-of-{place}", **fields)
        assert misfits(answer.json(), shape_of("post", name, answer.status_code)) == []
    for place, (name, fields, _, _) in enumerate(REFUSALS):
        answer = ask(phone, name, slip=f"refused-{place}", **fields)
        assert misfits(answer.json(), shape_of("post", name, answer.status_code)) == []
    scanned = ask(phone, "scan", slip="shape-of-scan", text="A").json()
    assert misfits(scanned, shape_of("post", "scan", 200)) == []


def test_description_is_served_to_paired_devices(phone: Phone, house: House) -> None:
    assert phone.get("/api/v1/openapi.json").json() == DESCRIPTION
    assert house.client().get("/api/v1/openapi.json").status_code == 401
    assert phone.get("/api/v1/kits").json() == [{"code": "T2", "name": "Tarn T2"}]


def test_every_act_and_question_is_described_in_words() -> None:
    named = [each for path in DESCRIPTION["paths"].values() for each in path.values()]
    assert len({each["operationId"] for each in named}) == len(named) == 43
    assert set(ACTS).isdisjoint(QUESTIONS)
    assert all(field.words for act in ACTS.values() for field in act.fields)


def test_unknown_question_is_not_found(phone: Phone) -> None:
    answer = phone.get("/api/v1/T2/weather")
    assert answer.status_code == 404
    assert misfits(answer.json(), DESCRIPTION["components"]["schemas"]["Refusal"]) == []


NUMBERS = st.one_of(st.integers(), st.floats(allow_nan=False, allow_infinity=False))
VALUES = st.one_of(st.none(), st.booleans(), NUMBERS, st.text())


@settings(
    max_examples=25, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture]
)
@given(
    name=st.sampled_from(sorted(ACTS)),
    sent=st.dictionaries(
        st.sampled_from(["crate", "part", "pieces", "from", "to", "hand", "step", "text", "x"]),
        VALUES,
        max_size=6,
    ),
)
def test_no_document_is_a_fault(phone: Phone, name: str, sent: dict[str, Any]) -> None:
    """A made-up document is refused in words, whatever it holds; never a fault of ours."""
    body = {"slip": f"made-up-{abs(hash(str(sent)))}", **sent}
    answer = phone.client.post(f"/api/v1/T2/{name}", json=body)
    assert answer.status_code in {200, 404, 409, 422}
    shape = shape_of("post", name, answer.status_code)
    assert misfits(answer.json(), shape) == []
