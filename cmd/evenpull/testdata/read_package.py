"""Reads a Data Package as any program would that knows the standard and not evenpull.

With pandas, and with Python's own csv as readers in other languages do: by the dialect and
the schema of each table alone. Prints a line for each table. Ends with a message where
something is not as the package says.
"""
import csv
import hashlib
import io
import json
import pathlib
import re
import sys

import pandas

DTYPES = {"number": "float64", "integer": "Int64", "boolean": "boolean", "string": "string", "any": "string"}


def by_schema(text, resource):
    """The columns of a table, each cell as the type of its field, None where it is missing."""
    dialect, schema = resource["dialect"], resource["schema"]
    lines = "".join(line for line in text.splitlines(True) if not line.startswith(dialect["commentChar"]))
    rows = list(csv.reader(io.StringIO(lines), lineterminator=dialect["lineTerminator"]))
    assert dialect["header"] and rows[0] == [f["name"] for f in schema["fields"]], rows[0]
    read = {"number": float, "integer": int, "boolean": {"true": True, "false": False}.__getitem__, "string": str, "any": str}
    columns = {}
    for i, field in enumerate(schema["fields"]):
        cells = [row[i] for row in rows[1:]]
        columns[field["name"]] = [None if c in schema["missingValues"] else read[field["type"]](c) for c in cells]
    return columns


def check(folder):
    package = json.loads((folder / "datapackage.json").read_text(encoding="utf-8"))
    assert package["profile"] == "data-package" and re.fullmatch(r"[a-z0-9._-]+", package["name"]), package["name"]
    names = [r["name"] for r in package["resources"]]
    assert len(set(names)) == len(names), names
    for r in package["resources"]:
        assert re.fullmatch(r"[a-z0-9._-]+", r["name"]), r["name"]
        raw = (folder / r["path"]).read_bytes()
        assert len(raw) == r["bytes"] and "sha256:" + hashlib.sha256(raw).hexdigest() == r["hash"], r["path"]
        if r["profile"] != "tabular-data-resource":
            continue
        fields = r["schema"]["fields"]
        columns = by_schema(raw.decode(r["encoding"]), r)
        frame = pandas.read_csv(folder / r["path"], comment=r["dialect"]["commentChar"], encoding=r["encoding"],
                                dtype={f["name"]: DTYPES[f["type"]] for f in fields}, keep_default_na=False,
                                na_values=r["schema"]["missingValues"], float_precision="round_trip")
        assert list(frame.columns) == list(columns), r["path"]
        for f in fields:
            frame[f["name"]].attrs["unit"] = f.get("unit", "")
            assert f["description"], f
            got = [None if pandas.isna(v) else v for v in frame[f["name"]]]
            assert got == columns[f["name"]], (r["path"], f["name"])
        units = sorted({f["unit"] for f in fields if "unit" in f})
        print(r["path"], len(frame), "rows", len(fields), "columns", "; ".join(units))


for name in sys.argv[1:]:
    check(pathlib.Path(name))
