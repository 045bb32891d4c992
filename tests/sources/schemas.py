#!/usr/bin/env python3
"""Holds the published JSON Schemas and the program's readers against each other.

    python schemas.py FOLDER            FOLDER holds the built `presurvey` and `examples/verdicts`, as `target/debug` does
    python schemas.py FOLDER KIND...    only these kinds of file: answers, config, setup, enquiry, jobs

Both ways, for each kind of file:

1. Documents that hypothesis-jsonschema makes of the schema are accepted by the reader.
2. Documents that the program made and its reader accepts validate against the schema.
3. A document that differs from a valid one in one place is accepted by both or refused by both.

What no schema can say is listed in the schema's own description, and here by the same sentence: the schema lets a document pass that
breaks it, and the reader refuses it by name. Nothing is drawn by chance that is not drawn the same the next time. The kinds are asked
beside each other, one a processor.
"""

import json
import pathlib
import random
import re
import subprocess
import sys
from concurrent.futures import ProcessPoolExecutor

import hypothesis
import hypothesis_jsonschema
import jsonschema_rs
from hypothesis import HealthCheck, given, settings
from hypothesis_jsonschema import _from_schema

GENERATED = 500
CHANGED = 1500
KINDS = ("answers", "config", "setup", "enquiry", "jobs")
WHOLE = "A whole number is written without a decimal point and without an exponent."


def for_python(schema):
    """The schema with patterns that end where ECMA-262's do: Python's `$` also matches before a last line feed."""
    if isinstance(schema, list):
        return [for_python(part) for part in schema]
    if not isinstance(schema, dict):
        return schema
    parts = {key: for_python(part) for key, part in schema.items()}
    if isinstance(parts.get("pattern"), str) and parts["pattern"].endswith("$"):
        parts["pattern"] = parts["pattern"][:-1] + r"\Z"
    return parts


def for_the_generator(schema):
    """The schema as the generator understands it, which knows draft 7: counts of `contains` are left to `keep_the_rules`, and where
    anything may stand instead of what is meant, nothing else is asked for."""
    if isinstance(schema, list):
        return [for_the_generator(part) for part in schema]
    if not isinstance(schema, dict):
        return schema
    parts = {key: for_the_generator(part) for key, part in schema.items()}
    if "allOf" in parts:
        parts["allOf"] = [part for part in parts["allOf"] if "contains" not in part]
    cases = [part for part in parts.get("allOf", []) if "if" in part]
    if cases and cases == parts["allOf"]:  # `if` and `then` for each word of a list: as many shapes, which it makes far faster
        del parts["allOf"]
        parts["anyOf"] = [{"properties": part["if"]["properties"] | part["then"]["properties"]} for part in cases]
    if {} in parts.get("anyOf", []):
        del parts["anyOf"]
    if parts.get("$schema"):
        parts["$schema"] = "http://json-schema.org/draft-07/schema#"
    return {key: part for key, part in parts.items() if key not in ("default", "description", "title") or isinstance(part, dict)}


def once_for_each_schema(make):
    """`make` with what it made of a schema kept: the generator otherwise makes the same of a field's schema again for every document."""
    made = {}

    def kept(schema, **how):
        key = json.dumps(schema), *how.values()
        if key not in made:
            made[key] = make(schema, **how)
        return made[key]

    return kept


for name in ("__from_schema", "merged_as_strategies"):
    setattr(_from_schema, name, once_for_each_schema(getattr(_from_schema, name)))


class Reader:
    """The program's readers, asked a document at a time."""

    def __init__(self, program):
        self.program = subprocess.Popen([program], stdin=subprocess.PIPE, stdout=subprocess.PIPE, text=True, encoding="utf-8")

    def refusal(self, kind, document):
        """Why the reader refuses a document; `None` where it accepts it."""
        self.program.stdin.write(f"{kind}\t{json.dumps(document)}\n")
        self.program.stdin.flush()
        said = self.program.stdout.readline().rstrip("\n")
        assert said, f"the readers came to an end at {kind} {json.dumps(document)[:500]}"
        return None if said == "accepted" else said

    def close(self):
        self.program.stdin.close()
        assert self.program.wait() == 0


# What no schema can say.


def ascending(line, fields):
    for name in fields:
        three = line[name]
        low, likely, high = sorted((three["low"], three["likely"], three["high"]))
        line[name] = {"low": low, "likely": likely, "high": high}


def in_order(part):
    if part.get("until") is not None and part["until"] < part["from"]:
        part["from"], part["until"] = part["until"], part["from"]


def first_of_each(parts, name):
    return list({name(part): part for part in reversed(parts)}.values())[::-1]


def keep_the_rules_of_both(document, day):
    for point in document["charge_points"]:
        if point.get("device") is not None and point["device"] < point["current"]:
            point["device"], point["current"] = point["current"], max(6, point["device"])
            point["current"], point["device"] = sorted((point["current"], point["device"]))
    for grant in document.get("grants") or []:
        in_order(grant)
    vat, apart = document["rates"]["vat"], []
    for rate in sorted(vat.get("rates", []), key=lambda rate: rate["from"]):
        in_order(rate)
        if all(other.get("until") is not None and other["until"] < rate["from"] for other in apart):
            apart.append(rate)
    if vat.get("rates"):
        vat["rates"] = apart
        document[day] = apart[0]["from"]
    if "devices" in document:
        document["devices"] = first_of_each(document["devices"], lambda device: device["printed"].strip().lower())
    thresholds = document.get("thresholds", {})
    good, least = thresholds.get("signal_good", 67), thresholds.get("signal_least", 75)
    if good > least:
        thresholds["signal_good"], thresholds["signal_least"] = least, good


def keep_the_rules(kind, document, items):
    """The document, made to keep what the schema can't say; where it keeps it already it stays as it is."""
    if kind == "enquiry":
        sizes, photos = document["envelope"]["photo_sizes"], document["payload"]["photos"]
        document["envelope"]["photo_sizes"] = (sizes + [1] * len(photos))[: len(photos)]
    if kind == "config":
        for line in document["prices"]:
            ascending(line, ("minutes", "materials"))
        prices = first_of_each(document["prices"], lambda line: line["item"])
        nothing = {"low": 0, "likely": 0, "high": 0}
        like = prices[0] if prices else {"minutes": nothing, "materials": nothing}
        there = {line["item"] for line in prices}
        document["prices"] = prices + [{**like, "item": item} for item in items if item not in there]
        keep_the_rules_of_both(document, "published")
        if document["rates"]["vat"]["registered"] and not document["rates"]["vat"].get("rates"):
            document["rates"]["vat"]["registered"] = False
    if kind == "setup":
        costs = first_of_each(document.get("costs", []), lambda line: line["item"])
        factors = document.get("calibration", {})
        labour, own = factors.get("labour", 1), factors.get("items", {})
        for item, factor in list(own.items()):
            if labour * factor > 5:
                del own[item]
        for line in costs:
            ascending(line, ("minutes", "cost"))
            if line["minutes"]["high"] * labour * own.get(line["item"], 1) > 10_000:
                line["minutes"] = {"low": 0, "likely": 0, "high": 0}
        if costs:
            document["costs"] = costs
        if document.get("webhooks"):
            document["webhooks"] = first_of_each(document["webhooks"], lambda webhook: webhook["url"])
        mail = document.get("mail")
        if mail:
            document["mail_to"] = "person@installer.invalid"
            if mail.get("encryption") == "none":
                del mail["encryption"]
            if mail.get("user") is None:
                mail.pop("password", None)
        keep_the_rules_of_both(document, "changed")
        if not document["rates"]["vat"].get("rates"):
            document["changed"] = max(document["changed"], "2011-01-04")  # the first day of the rate that comes with the program
    return document


def put(document, path, value):
    for step in path[:-1]:
        document = document[step]
    document[path[-1]] = value


def breaks(*changes):
    def change(document):
        for path, value in changes:
            put(document, path, value)

    return change


RATE = {"from": "2020-01-01", "rate": 0.2, "source": "invented"}
VAT = ("rates", "vat")
MAIL = {"server": "smtp.example.com", "from": "form@installer.invalid"}
HOOK = {"url": "https://hooks.example.com/", "secret": "whsec_" + "A" * 32}
THREE = {"low": 2, "likely": 1, "high": 3}
# By the sentence in the description: what breaks it in a document that the program made, and what the reader says then.
BOTH = {
    WHOLE: (breaks((("keep_days",), 180.0)), r"`keep_days`.*floating point"),
    "A charge point's device is no less than its current.": (
        breaks((("charge_points", 0, "current"), 32), (("charge_points", 0, "device"), 16)),
        r"`charge_points\[\d+\]\.device`.*no less than its current",
    ),
    "A grant's last day is its first day or later.": (
        breaks((("grants",), [{"name": "a", "from": "2026-01-02", "until": "2026-01-01", "most": 1, "who": ["flat-or-rented"],
                               "read": "2026-01-01", "source": "invented"}])),
        r"`grants\[\d+\]\.until`.*its first day or later",
    ),
    "The last day of a rate of VAT is its first day or later.": (
        breaks(((*VAT, "registered"), False), ((*VAT, "rates"), [{**RATE, "until": "2019-01-01"}])),
        r"`rates\.vat\.rates\[\d+\]\.until`.*its first day or later",
    ),
    "No two rates of VAT have a day in common.": (
        breaks(((*VAT, "rates"), [RATE, {**RATE, "from": "2021-01-01"}])),
        r"`rates\.vat\.rates\[\d+\]\.from`.*a day that no other rate has",
    ),
    "There is a rate of VAT for the day of the config or setup, where the installer is registered.": (
        breaks(((*VAT, "registered"), True), ((*VAT, "rates"), [{**RATE, "from": "2090-01-01"}])),
        r"`rates\.vat\.rates`.*a rate for the day of the setup",
    ),
    "What is printed on a board stands once in the list of devices, capitals and outer spaces aside.": (
        breaks((("devices",), [{"printed": "One", "double_pole": True}, {"printed": " one", "double_pole": False}])),
        r"`devices\[\d+\]\.printed`.*a name that stands once",
    ),
    "Of the thresholds, signal_good is no more than signal_least; one that is left out has its default.": (
        breaks((("thresholds",), {"signal_good": 80})),
        r"`thresholds\.signal_good`.*signal_least",
    ),
}
BEYOND = {
    "answers": {WHOLE: (breaks((("board",), {"boards": 2.0})), r"`board\.boards`.*a whole number from 1 to 6|it may be a whole number")},
    "config": BOTH | {
        "Of each line of prices, low, likely and high ascend.": (
            breaks((("prices", 0, "minutes"), THREE)),
            r"`prices\[\d+\]`.*low, likely, high ascending",
        ),
    },
    "setup": BOTH | {
        "Of each line of costs, low, likely and high ascend.": (
            breaks((("costs", 0, "minutes"), THREE)),
            r"`costs\[\d+\]`.*low, likely, high ascending",
        ),
        "Minutes that the calibration's factors have multiplied, those of default lines too, are no more than a config's may be.": (
            breaks((("costs", 0, "minutes"), {"low": 0, "likely": 0, "high": 480}), (("calibration",), {"labour": 5}),
                   (("calibration", "items"), {"PLACE": 5})),
            r"`(costs|prices)\[\d+\]`.*to 10,000 minutes",
        ),
        "Where there is mail, mail_to is the address that it is sent to.": (
            breaks((("mail",), MAIL), (("mail_to",), "not an address")),
            r"`mail_to`.*(one address alone|as there is `mail`)",
        ),
        "Only to a mail server on this machine the encryption is none.": (
            breaks((("mail",), {**MAIL, "encryption": "none"}), (("mail_to",), "a@b.invalid")),
            r"`mail\.encryption`.*on this machine alone",
        ),
        "A password of mail has its user beside it.": (
            breaks((("mail",), {**MAIL, "password": "x"}), (("mail_to",), "a@b.invalid")),
            r"`mail\.user`.*whom the password is of",
        ),
        "The address of a webhook stands once.": (
            breaks((("webhooks",), [HOOK, HOOK])),
            r"`webhooks\[\d+\]\.url`.*stands once",
        ),
    },
    "enquiry": {
        WHOLE: (breaks((("version",), 1.0)), r"floating point"),
        "There are as many photo_sizes in the envelope as photos in the payload.": (
            breaks((("envelope", "photo_sizes"), []), (("payload", "photos"), [{"sha256": "0" * 64, "place": "meter", "width": 1, "height": 1}])),
            r"`envelope\.photo_sizes`.*one size for each photo",
        ),
    },
    "jobs": {WHOLE: (lambda document: put(document.get("jobs", [document])[0], ("materials",), 100.0), r"materials.*floating point")},
}


# Documents that differ in one place.


def places(document, path=()):
    """Every place of a document, by the same path with `*` for the places of lists."""
    found = {tuple("*" if isinstance(step, int) else step for step in path): [path]} if path else {}
    inner = document.items() if isinstance(document, dict) else enumerate(document) if isinstance(document, list) else ()
    for step, part in inner:
        for group, paths in places(part, (*path, step)).items():
            found.setdefault(group, []).extend(paths)
    return found


def others(value, chance):
    """Values of another type, past bounds, or of other words."""
    anything = [None, True, 0, 1, -1, 1.5, "", "x", "not-sure", [], {}, [value], {"value": value}]
    if isinstance(value, bool):
        return anything + ["true"]
    if isinstance(value, (int, float)):
        return anything + [-value - 1, value + 0.5, str(value), 5, 24, 25, 64, 101, 256, 366, 961, 70_000, 100_001, 10**7 + 1, 10**9, 2**32,
                           2**63, 2**64, 10**30, 1e300, -1e-9, 0.19, 5.01]
    if isinstance(value, str):
        at = chance.randrange(len(value) + 1)
        return anything + [value + "x", value.upper(), value[1:], f" {value}", f"{value}\n", value[:at] + "\u0007" + value[at:],
                           value[:at] + "\u0085" + value[at:], value[:at] + "\u3000" + value[at:], value * 50, value + "x" * 201, " ",
                           "2026-02-29", "2028-02-29", "1999-12-31", "2100-01-01", "2026-1-01", "ZZ1 1AA", "ZZZ1", "#ab", "#ABCDEF",
                           "https://", "//x", "/x", "not a word"]
    if isinstance(value, list):
        return anything + [value + [None], value + value[-1:], value[1:], value * 60]
    return anything + ([] if value is None else [list(value.values())])


def changed(document, chance):
    """The document with one change somewhere: another value, a field that is left out, or one that nobody knows."""
    document = json.loads(json.dumps(document))
    groups = places(document)
    path = chance.choice(groups[chance.choice(sorted(groups))])
    holder = document
    for step in path[:-1]:
        holder = holder[step]
    what = chance.randrange(6)
    if what == 0:
        del holder[path[-1]]
    elif what == 1 and isinstance(holder, dict):
        holder[chance.choice(["unknown", "", path[-1] + "s", "version", "value"])] = chance.choice([None, 1, "x"])
    else:
        holder[path[-1]] = chance.choice(others(holder[path[-1]], chance))
    return document, path


class Check:
    def __init__(self, folder, kind, schema, made):
        self.schema, self.made = schema, made
        self.validator = jsonschema_rs.Draft202012Validator(schema, validate_formats=True)
        self.items = [item for item in schema["$defs"]["Item"]["enum"] if item not in ("call-out", "charge-point")] if kind == "config" else []
        self.reader = Reader(folder / "examples/verdicts")
        self.wrong = []

    def tell(self, kind, what, document, why):
        self.wrong.append(f"{kind}: {what}: {str(why)[:400]}\n    {json.dumps(document)[:600]}")

    def beyond_is_described_and_refused(self, kind):
        """The sentences of the description are those here; each is needed, and the reader keeps it."""
        listed = re.findall(r"^- (.*)$", self.schema["description"], re.MULTILINE)
        if listed != list(dict.fromkeys(listed)) or set(listed) != set(BEYOND[kind]):
            self.tell(kind, "the description and this script list other rules", listed, list(BEYOND[kind]))
        for rule, (change, says) in BEYOND[kind].items():
            document = json.loads(json.dumps(next(one for one in self.made if kind != "setup" or one["costs"])))
            change(document)
            if kind == "setup" and "PLACE" in document["calibration"].get("items", {}):
                document["calibration"]["items"] = {document["costs"][0]["item"]: 5}
            why = self.reader.refusal(kind, document)
            if not self.validator.is_valid(document):
                self.tell(kind, f"the schema does say {rule!r}", document, next(self.validator.iter_errors(document)).message)
            if why is None or not re.search(says, why):
                self.tell(kind, f"the reader does not refuse by name what breaks {rule!r}", document, why)

    def generated_are_accepted(self, kind):
        """Returns the documents."""
        seen = {}
        schema = for_the_generator(for_python(self.schema))
        if within := schema.get("$defs", {}).get("Answers"):
            # Answers are a kind of their own; within others a topic or two of them are enough, and made far faster.
            within["properties"] = {name: within["properties"][name] for name in ("as_of", "meter", "operator")}

        @settings(max_examples=GENERATED, derandomize=True, database=None, deadline=None, suppress_health_check=HealthCheck)
        @given(hypothesis_jsonschema.from_schema(schema))
        def accepts(document):
            document = keep_the_rules(kind, document, self.items)
            error = next(self.validator.iter_errors(document), None)
            assert error is None, f"made of the schema, and not valid: {error.instance_path}: {error.message[:300]}"
            why = self.reader.refusal(kind, document)
            assert why is None, f"made of the schema and refused: {why}\n{json.dumps(document)[:600]}"
            seen[json.dumps(document, sort_keys=True)] = document

        try:
            accepts()
        except AssertionError as problem:
            self.tell(kind, "generated", None, problem)
        return list(seen.values())

    def made_are_valid(self, kind):
        for document in self.made:
            error = next(self.validator.iter_errors(document), None)
            if error is not None:
                self.tell(kind, "accepted by the reader, and not valid", document, f"{error.instance_path}: {error.message}")
            why = self.reader.refusal(kind, document)
            if why is not None:
                self.tell(kind, "made by the program, and refused", document, why)

    def changed_are_judged_alike(self, kind, documents):
        """Returns how many were accepted and refused by both, and how many broke a rule that no schema can say."""
        chance = random.Random(kind)
        accepted = refused = beyond = 0
        for _ in range(CHANGED):
            document, path = changed(chance.choice(documents), chance)
            valid, why = self.validator.is_valid(document), self.reader.refusal(kind, document)
            if valid and why is None:
                accepted += 1
            elif not valid and why is not None:
                refused += 1
            elif valid and any(re.search(says, why) for _, says in BEYOND[kind].values()):
                beyond += 1
            else:
                said = why or "accepted, against the schema: " + next(self.validator.iter_errors(document)).message
                at = document
                for step in path:
                    at = at[step] if isinstance(at, dict) and step in at or isinstance(at, list) and step < len(at) else "(left out)"
                self.tell(kind, f"changed at {path}", at, said)
        return accepted, refused, beyond

    def whole(self, kind):
        """Returns what there is to say, and what is wrong."""
        self.beyond_is_described_and_refused(kind)
        self.made_are_valid(kind)
        generated = self.generated_are_accepted(kind)
        made = self.made[:GENERATED]
        accepted, refused, beyond = self.changed_are_judged_alike(kind, [document for document in made + generated if document])
        if min(accepted, refused) < CHANGED // 20:
            self.tell(kind, "the changes say little", None, (accepted, refused))
        if len(generated) < GENERATED * 9 // 10:
            self.tell(kind, "few documents were generated", None, len(generated))
        self.reader.close()
        said = (
            f"{kind}: {len(generated)} generated and accepted, {len(self.made)} made and valid, "
            f"{CHANGED} changed ({accepted} accepted by both, {refused} refused by both, {beyond} past a schema)"
        )
        return said, self.wrong


def check(folder, kind, schema, made):
    return Check(folder, kind, schema, made).whole(kind)


def asked(program, *what):
    return subprocess.run([program, *what], check=True, capture_output=True, encoding="utf-8").stdout


def main():
    folder = pathlib.Path(sys.argv[1])
    schemas = json.loads(asked(folder / "presurvey", "schema"))
    assert set(schemas) == set(KINDS), f"{sorted(schemas)} are published"
    for schema in schemas.values():
        jsonschema_rs.meta.validate(schema)
    made = {kind: [] for kind in KINDS}
    for line in asked(folder / "examples/verdicts", "documents").splitlines():
        kind, document = line.split("\t", 1)
        made[kind].append(json.loads(document))
    wrong = []
    with ProcessPoolExecutor() as processors:
        checks = [processors.submit(check, folder, kind, schemas[kind], made[kind]) for kind in sys.argv[2:] or KINDS]
        for done in checks:
            said, differs = done.result()
            print(said, flush=True)
            wrong += differs
    for line in wrong[:40]:
        print(line, file=sys.stderr)
    print(f"hypothesis {hypothesis.__version__}; {len(wrong)} differences")
    sys.exit(1 if wrong else 0)


if __name__ == "__main__":
    main()
