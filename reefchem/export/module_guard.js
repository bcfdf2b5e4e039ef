function guarded(name) {
  const record = records[name], wanted = Object.keys(record.arguments);
  const checked = (...given) => {
    const values = inOrder(name, record, given);
    wanted.forEach((key, i) => judgeInput(name, key, values[i], record.arguments[key]));
    const result = bodies[name](...values);
    finite(name, result, wanted, values, record.iterated);
    judgeResult(name, result, record);
    return result;
  };
  Object.defineProperty(checked, "name", { value: name });
  return checked;
}

function calculated(name) {
  const record = calculations[name], wanted = Object.keys(record.arguments);
  const checked = (...given) => {
    const values = inOrder(name, record, given);
    wanted.forEach((key, i) => {
      const [low, high] = bounds(record.arguments[key]);
      if (values[i] === null || Number.isNaN(values[i])) return;
      if (!(values[i] >= low && values[i] <= high) || Math.abs(values[i]) === Infinity) refused(name, key, values[i], low, high);
      judgeInput(name, key, values[i], record.arguments[key]);
    });
    const parts = bodies[name](...values, picked(name, record, given));
    if (!record.options.carbonic) Object.values(parts).forEach((part) => finite(name, part, wanted, values, false));
    return Object.freeze(parts);
  };
  Object.defineProperty(checked, "name", { value: name });
  return checked;
}

function isInputs(given) {
  return given.length === 1 && given[0] !== null && typeof given[0] === "object";
}

function inOrder(name, record, given) {
  const wanted = Object.keys(record.arguments), options = Object.keys(record.options ?? {});
  if (given.length > wanted.length) throw new TypeError(`${name} takes ${wanted.join(", ")}; ${given.length} values are given`);
  const named = isInputs(given) ? given[0] : Object.fromEntries(given.map((value, i) => [wanted[i], value]));
  const unknown = Object.keys(named).filter((key) => !wanted.includes(key) && !options.includes(key));
  if (unknown.length) throw new TypeError(`${name} takes ${[...wanted, ...options].join(", ")}; not ${unknown.join(", ")}`);
  return wanted.map((key) => {
    const value = named[key] ?? record.arguments[key].default;
    if (typeof value === "number" || value === null) return value;
    throw new TypeError(`${name}: ${key} is ${value === undefined ? "missing" : `${typeof value === "object" ? "an" : "a"} ${typeof value}`}; a number is expected`);
  });
}

function picked(name, record, given) {
  return Object.fromEntries(Object.entries(record.options).map(([key, known]) => {
    const value = (isInputs(given) ? given[0][key] : undefined) ?? known[0];
    if (known.includes(value)) return [key, value];
    throw new DomainError(`${name}: ${key} is ${JSON.stringify(value)}; it is one of ${known.join(", ")}`);
  }));
}
