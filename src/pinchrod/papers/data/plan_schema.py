"""The JSON Schema of `plan.json`, which comes with us as `plan.schema.json`."""

from importlib.resources import files


def plan_schema() -> str:
    """The schema as the text of a JSON file (JSON Schema, draft 2020-12)."""
    return files("pinchrod.papers.data").joinpath("plan.schema.json").read_text(encoding="utf-8")
