refuse = refused;

// Trial values of a search are nobody's input: what is said of ranges is said of its answer.
let searching = false, answered = false;
findRoot = ((search) => (residual, lower, upper) => {
  const before = searching;
  let root;
  searching = true;
  try {
    root = search(residual, lower, upper);
  } finally {
    searching = before;
  }
  if (!before && Number.isFinite(root)) {
    answered = true;
    try {
      residual(root);
    } finally {
      answered = false;
    }
  }
  return root;
})(findRoot);

// A relation that another calls: its inputs at these places are its own to judge, and its result.
function called(relation, places, ...values) {
  const { name } = relation, record = records[name], wanted = Object.keys(record.arguments);
  if (!searching) for (const i of places) judgeInput(name, wanted[i], values[i], record.arguments[wanted[i]]);
  const result = relation(...values);
  finite(name, result, wanted, values, record.iterated);
  if (!searching && !answered) judgeResult(name, result, record);
  return result;
}
