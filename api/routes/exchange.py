"""Everything in an open format: as a file, and the schema that describes it."""

from __future__ import annotations

import tempfile
from pathlib import Path
from typing import Annotated, Any, Literal

from fastapi import APIRouter, Query
from fastapi.responses import FileResponse
from pydantic import BaseModel, ConfigDict
from starlette.background import BackgroundTask

from api.context import Now, ShopHere
from api.shapes.examples import example
from journal import flow
from journal.keep.exchange.schema import json_schema

router = APIRouter(prefix="/api/export", tags=["exchange"])
ZIP_TYPE = "application/zip"
_ZIP: dict[int | str, dict[str, Any]] = {
    200: {"description": "The file", "content": {ZIP_TYPE: {"schema": {"type": "string", "format": "binary"}}}}
}
Form = Annotated[Literal["json", "csv"], Query(description="One JSON file, or one CSV file a noun")]


class SchemaShape(BaseModel):
    """A JSON Schema (2020-12)."""

    model_config = ConfigDict(
        extra="allow",
        json_schema_extra=example({"$schema": "https://json-schema.org/draft/2020-12/schema", "type": "object"})[
            "json_schema_extra"
        ],
    )


@router.get("/schema", summary="The schema of the exchange format")
def schema() -> SchemaShape:
    """Return the JSON Schema that the JSON file of an export holds to."""
    return SchemaShape(**json_schema())


@router.get("", summary="Everything, as a ZIP file", response_class=FileResponse, responses=_ZIP)
def export(shop: ShopHere, now: Now, form: Form = "json") -> FileResponse:
    """Return all records with their schema, and all originals."""
    folder = tempfile.TemporaryDirectory()
    path = Path(folder.name) / "export.zip"
    try:
        flow.export(shop, path, form)
    except BaseException:
        folder.cleanup()
        raise
    name = f"mouldbook-{now:%Y-%m-%d}-{form}.zip"
    return FileResponse(path, media_type=ZIP_TYPE, filename=name, background=BackgroundTask(folder.cleanup))
