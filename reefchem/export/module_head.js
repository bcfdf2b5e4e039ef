// Chemistry of a small reef aquarium: relations generated from the Python package reefchem.
// Numbers go in and come out in the units of `records`; nothing here needs a browser or a network.

/** An input is impossible, or has no answer. */
export class DomainError extends RangeError {
  get name() { return "DomainError"; }
}

/** No value of the unknown satisfies the inputs inside the bracket that was searched. */
export class NoRootError extends DomainError {
  get name() { return "NoRootError"; }
}

let warn = (message) => console.warn(message);
let refuseOutside = false;

/** Call this instead of console.warn when a value is outside a source's range. */
export function onRangeWarning(handler) { warn = handler; }

/** Refuse what is outside a source's range instead of warning. */
export function strict(yes = true) { refuseOutside = yes; }

function freeze(value) {
  if (value && typeof value === "object") Object.values(value).forEach(freeze);
  return Object.freeze(value);
}
