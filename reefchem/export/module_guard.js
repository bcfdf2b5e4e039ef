function guarded(name) {
  const record = records[name];
  const wanted = Object.keys(record.arguments);
  const checked = (...given) => {
    const values = inOrder(name, wanted, record, given);
    wanted.forEach((key, i) => judgeRange(name, key, values[i], record.arguments[key]));
    const result = bodies[name](...values);
    if (Number.isFinite(result) || values.some(Number.isNaN)) return result;
    const shown = wanted.map((key, i) => `${key}=${values[i]}`).join(", ");
    if (record.iterated) throw new NoRootError(`${name}: no answer satisfies ${shown}`);
    throw new DomainError(`${name}: no finite result for ${shown}`);
  };
  Object.defineProperty(checked, "name", { value: name });
  return checked;
}

function inOrder(name, wanted, record, given) {
  const byName = given.length === 1 && given[0] !== null && typeof given[0] === "object";
  const named = byName ? given[0] : Object.fromEntries(given.map((value, i) => [wanted[i] ?? "?", value]));
  const unknown = Object.keys(named).filter((key) => !wanted.includes(key));
  if (unknown.length) throw new TypeError(`${name} takes ${wanted.join(", ")}; not ${unknown.join(", ")}`);
  return wanted.map((key) => {
    const value = named[key] ?? record.arguments[key].default;
    if (typeof value === "number") return value;
    throw new TypeError(`${name}: ${key} is ${value === undefined ? "missing" : `a ${typeof value}`}; a number is expected`);
  });
}

function judgeRange(name, key, value, argument) {
  if (!argument.valid) return;
  const [low, high] = argument.valid;
  const [least, most] = argument.possible;
  if (value < (least ?? -Infinity) || value > (most ?? Infinity)) return;
  if (!(value < low || value > high) || !Number.isFinite(value)) return;
  const message = `${name}: ${key} is ${value} ${argument.unit}; the source covers ${low} to ${high}`;
  if (refuseOutside) throw new DomainError(message);
  warn(`${message}. It is used as given`);
}
