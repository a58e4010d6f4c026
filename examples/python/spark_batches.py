"""The same function over a partitioned table on a distributed engine: PySpark's `mapInArrow`, two local workers.

`make test-cluster` installs what it needs and runs it. Invented data.
"""

import tempfile
from collections.abc import Iterator

import pyarrow as pa
from pyspark.sql import SparkSession

import kingvalve as kv

ADDED = "superheat double, subcooling double, target double, standard_uncertainty double, probability_within double"


def judged(batches: Iterator[pa.RecordBatch]) -> Iterator[pa.RecordBatch]:
    """Runs in each worker, on each batch of its partitions."""
    for batch in batches:
        table = kv.batch.evaluate(batch, refrigerant="R-410A", target_subcooling=kv.delta_fahrenheit(10))
        verdict = table.column_names.index("verdict")
        yield from table.set_column(verdict, "verdict", table["verdict"].cast(pa.string())).to_batches()


def main() -> None:
    season = pa.table(kv.demo("season"))
    spark = SparkSession.builder.master("local[2]").appName("kingvalve").config("spark.ui.enabled", "false").getOrCreate()
    with tempfile.TemporaryDirectory() as folder:
        spark.createDataFrame(season.to_pylist()).repartition(8).write.parquet(f"{folder}/season")
        rows = spark.read.parquet(f"{folder}/season").select(*season.column_names)
        schema = ", ".join(f"{name} {kind}" for name, kind in rows.dtypes) + f", {ADDED}, verdict string"
        found = {row["verdict"]: row["count"] for row in rows.mapInArrow(judged, schema).groupBy("verdict").count().collect()}
    spark.stop()
    alone = kv.batch.evaluate(kv.demo("season"), refrigerant="R-410A", target_subcooling=kv.delta_fahrenheit(10))["verdict"]
    assert found == {name: alone.count(name) for name in set(alone)}, (found, alone)
    print(f"{sum(found.values())} rows in 8 partitions, two workers, as on one: {found}")


if __name__ == "__main__":
    main()
