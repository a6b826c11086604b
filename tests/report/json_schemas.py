"""Holds JSON files against the schemas of tools/schema: json_schemas.py SCHEMA_FOLDER SCHEMA=FILE..."""
import json
import pathlib
import sys
import warnings

import jsonschema

# Debian 12 has the release before the resolver was superseded.
warnings.filterwarnings("ignore", category=DeprecationWarning)

folder = pathlib.Path(sys.argv[1])
schemas = {path.name: json.loads(path.read_text(encoding="utf-8")) for path in sorted(folder.glob("*.schema.json"))}
for schema in schemas.values():
    jsonschema.Draft202012Validator.check_schema(schema)

faults = 0
for pair in sys.argv[2:]:
    name, file = pair.split("=", 1)
    schema = schemas[name + ".schema.json"]
    # Schemas name each other by file name; nothing is fetched.
    resolver = jsonschema.RefResolver(base_uri=schema["$id"], referrer=schema, store=schemas)
    validator = jsonschema.Draft202012Validator(schema, resolver=resolver)
    for error in list(validator.iter_errors(json.loads(pathlib.Path(file).read_text(encoding="utf-8"))))[:5]:
        place = "/".join(str(step) for step in error.absolute_path)
        print(f"{name}: {place}: {error.message[:300]}")
        faults += 1
sys.exit(1 if faults else 0)
