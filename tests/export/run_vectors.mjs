// Compares the generated module with the vectors: node run_vectors.mjs MODULE VECTORS
import { readFileSync } from "node:fs";
import { pathToFileURL } from "node:url";

const [, , modulePath, vectorsPath] = process.argv;
const reefchem = await import(pathToFileURL(modulePath));
const { vectors } = JSON.parse(readFileSync(vectorsPath, "utf8"));
const warned = [];
reefchem.onRangeWarning((message) => warned.push(message));

const differing = [];
let compared = 0;
for (const vector of vectors) {
  const relation = reefchem[vector.relation];
  if (!relation || Object.keys(vector.options ?? {}).length) continue; // several parts, or a choice
  const inputs = Object.fromEntries(Object.entries(vector.inputs).map(([key, { value }]) => [key, value]));
  compared += 1;
  let answer, refused = "";
  try {
    answer = relation(inputs);
  } catch (error) {
    if (!(error instanceof reefchem.DomainError)) throw error;
    refused = error.message;
  }
  if (vector.expected === null) {
    if (!refused) differing.push({ id: vector.id, answer, wanted: vector.refusal });
    continue;
  }
  const off = Math.abs(answer - vector.computed);
  if (refused || !(off <= 1e-12 * Math.abs(vector.computed))) differing.push({ id: vector.id, answer, refused, wanted: vector.computed, off });
}
console.log(JSON.stringify({ compared, warned: warned.length, differing }));
