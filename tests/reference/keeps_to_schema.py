"""Whether a record keeps to a JSON Schema, by the jsonschema package.

On standard input a list of two, the schema and the record; prints what is wrong with the record, nothing if it is right
"""

import json
import sys

from jsonschema import Draft202012Validator

schema, record = json.load(sys.stdin)
Draft202012Validator.check_schema(schema)
for error in Draft202012Validator(schema).iter_errors(record):
    print(f"{error.json_path}: {error.message}")
