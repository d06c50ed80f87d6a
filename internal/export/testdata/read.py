"""Prints the rows of Parquet files, one JSON array a line, with pyarrow or DuckDB."""
import json
import sys

try:
    import pyarrow.parquet

    def rows(path):
        table = pyarrow.parquet.read_table(path)
        return zip(*(column.to_pylist() for column in table.columns))
except ImportError:
    try:
        import duckdb
    except ImportError:
        sys.exit(3)  # no reader here

    def rows(path):
        return duckdb.sql("select * from read_parquet('%s')" % path.replace("'", "''")).fetchall()

for row in rows(sys.argv[1]):
    print(json.dumps(row))
