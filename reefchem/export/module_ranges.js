// What is impossible, and what is outside a source's range: said here for inputs and results.
const shown = (value) => Number.isFinite(value) ? String(Number(value.toPrecision(10))) : String(value);
const ofUnit = (unit) => unit === "1" ? "" : ` ${unit}`;
const bounds = ({ possible: [least, most] }) => [least ?? -Infinity, most ?? Infinity];

function sayOutside(message, end) {
  if (refuseOutside) throw new DomainError(message);
  warn(`${message}. ${end}`);
}

function refused(relation, argument, value, low, high) {
  const allowed = high === Infinity ? `${low} or more` : low === -Infinity ? `${high} or less` : `${low} to ${high}`;
  throw new DomainError(`${relation}: ${argument} is ${value}; ${allowed} is possible, and finite`);
}

function judgeInput(name, key, value, argument) {
  if (!argument.valid || !Number.isFinite(value)) return;
  const [low, high] = argument.valid, [least, most] = bounds(argument);
  if (value >= low && value <= high || value < least || value > most) return;
  const unit = ofUnit(argument.unit);
  sayOutside(`${name}: ${key} is ${shown(value)}${unit}; the source covers ${shown(low)} to ${shown(high)}${unit}`, "It is used as given");
}

function judgeResult(name, result, record) {
  if (!record.covers || !(result < record.covers[0] || result > record.covers[1])) return;
  const [low, high] = record.covers.map((value) => Number(value.toPrecision(6)));
  sayOutside(`${name}: the result is ${shown(result)}; the source covers ${low} to ${high}`, "It is given all the same");
}

function finite(name, result, wanted, values, iterated) {
  if (Number.isFinite(result) || values.some(Number.isNaN)) return;
  const given = wanted.map((key, i) => `${key}=${values[i]}`).join(", ");
  if (iterated) throw new NoRootError(`${name}: no answer satisfies ${given}`);
  throw new DomainError(`${name}: no finite result for ${given}`);
}
