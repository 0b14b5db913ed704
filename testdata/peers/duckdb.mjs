// Another program reads what `fencerow batch` writes: DuckDB the Parquet parts of a run
// in shares, and the joined CSV of the same run undivided. Counts and sums by commodity
// must agree.
//
//   node duckdb.mjs NODE_MODULES SHARED_OUT UNDIVIDED_OUT
//
// NODE_MODULES is where npm installed @duckdb/node-api. Exit code 1: they differ.
import { createRequire } from "node:module";
import { join, resolve } from "node:path";

const [modules, shared, undivided] = process.argv.slice(2);
const { DuckDBInstance } = createRequire(join(resolve(modules), "x.js"))("@duckdb/node-api");
const connection = await (await DuckDBInstance.create(":memory:")).connect();

async function byCommodity(source) {
  const read = await connection.runAndReadAll(`
    SELECT commodity, count(*) AS lines, count(plc_mean) AS known, sum(plc_mean * base_acres) AS dollars, sum(base_acres) AS acres
    FROM ${source} GROUP BY commodity ORDER BY commodity`);
  return read.getRowObjectsJson();
}

const quote = (path) => `'${path.replaceAll("'", "''")}'`;
const parquet = await byCommodity(`read_parquet(${quote(join(shared, "results", "*.parquet"))})`);
const csv = await byCommodity(`read_csv(${quote(join(undivided, "results.csv"))}, header = true)`);

// The averages have two decimals in CSV, which is at most half a cent on each acre.
const allowed = (line) => 0.005 * Number(line.acres) + 0.01;
let wrong = parquet.length === csv.length && parquet.length > 0 ? 0 : 1;
parquet.forEach((line, i) => {
  const other = csv[i] ?? {};
  const apart = Math.abs(line.dollars - other.dollars);
  const same = line.commodity === other.commodity && line.lines === other.lines && line.known === other.known && apart <= allowed(line);
  console.log(`${line.commodity}: ${line.lines} lines, ${Number(line.dollars).toFixed(2)} USD in Parquet, ${Number(other.dollars).toFixed(2)} in CSV${same ? "" : "  DIFFER"}`);
  if (!same) wrong++;
});
process.exitCode = wrong > 0 ? 1 : 0;
