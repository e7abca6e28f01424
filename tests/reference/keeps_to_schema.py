"""Whether a record keeps to a JSON Schema, by the jsonschema package.

Usage: keeps_to_schema.py SCHEMA     the record on standard input; prints what is wrong with it, nothing if it is right
"""

import json
import sys

from jsonschema import Draft202012Validator

with open(sys.argv[1], encoding="utf-8") as file:
    schema = json.load(file)
Draft202012Validator.check_schema(schema)
for error in Draft202012Validator(schema).iter_errors(json.load(sys.stdin)):
    print(f"{error.json_path}: {error.message}")
