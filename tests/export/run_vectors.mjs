// Compares the generated module with the vectors: node run_vectors.mjs MODULE VECTORS
import { readFileSync } from "node:fs";
import { pathToFileURL } from "node:url";

const [, , modulePath, vectorsPath] = process.argv;
const reefchem = await import(pathToFileURL(modulePath));
const { vectors } = JSON.parse(readFileSync(vectorsPath, "utf8"));
let warned = [];
reefchem.onRangeWarning((message) => warned.push(message));

// Of two slopes against temperature a difference of near numbers is left.
const tolerance = (part) => part.endsWith("_temperature") ? 1e-9 : 1e-12;
// What is said of ranges, by relation and quantity: "seawater_density: temperature".
const about = (messages) => [...new Set(messages.map((text) => text.split(" is ")[0].replace(/: the .*/, ": result")))].sort();

const differing = [];
const compared = [], largest = {};
for (const vector of vectors) {
  const relation = reefchem[vector.relation];
  if (!relation) continue; // named in the head of the module
  const inputs = Object.fromEntries(Object.entries(vector.inputs).map(([key, { value }]) => [key, value]));
  compared.push(vector.id);
  warned = [];
  let answer, refused = "";
  try {
    answer = relation({ ...inputs, ...vector.options });
    if (vector.part) answer = answer[vector.part];
  } catch (error) {
    if (!(error instanceof reefchem.DomainError)) throw error;
    refused = error.message;
  }
  if (vector.expected === null) {
    if (!refused) differing.push({ id: vector.id, answer, wanted: vector.refusal });
    continue;
  }
  const part = vector.part ?? "";
  const off = Math.abs(answer - vector.computed) / (Math.abs(vector.computed) || 1);
  largest[part] = Math.max(largest[part] ?? 0, off);
  if (refused || !(off <= tolerance(part))) differing.push({ id: vector.id, answer, refused, wanted: vector.computed, off });
  const flagged = about((vector.flags ?? []).filter((flag) => /; the source covers|, \w+ covers/.test(flag)));
  if (about(warned).join() !== flagged.join()) differing.push({ id: vector.id, warned: about(warned), flagged });
}
console.log(JSON.stringify({ compared, differing, largest }));
