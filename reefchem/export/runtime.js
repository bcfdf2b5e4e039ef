// Root finding between two bounds, step by step as reefchem/core/roots.py does it, and numbers
// as text, as reefchem/formula/digits.py writes them.

// Called where a value is impossible; what it returns becomes the result.
let refuse = () => NaN;

function findRoot(residual, lower, upper) {
  let a = lower, b = upper, fa = residual(a), fb = residual(b), c, fc;
  if (Number.isNaN(fa) || Number.isNaN(fb)) return NaN;
  if (fa === 0) return a;
  if (fb === 0) return b;
  if (fa > 0 === fb > 0) return NaN;
  let fraction = 0.5, wide = Math.abs(b - a);
  for (let step = 0; step < 8400; step++) {
    const x = a + fraction * (b - a);
    const fx = residual(x);
    if (Number.isNaN(fx)) return NaN;
    if (fx > 0 === fa > 0) {
      c = a; fc = fa;
    } else {
      c = b; fc = fb; b = a; fb = fa;
    }
    a = x; fa = fx;
    const nearer = Math.abs(fa) < Math.abs(fb);
    const best = nearer ? a : b;
    const width = Math.abs(b - a);
    const tolerance = 8e-16 * Math.abs(best) + 5e-324;
    if ((nearer ? fa : fb) === 0 || width <= 2 * tolerance) return best;
    const xi = (a - b) / (c - b), phi = (fa - fb) / (fc - fb);
    if (phi * phi < xi && (1 - phi) * (1 - phi) < 1 - xi) {
      fraction = fa / (fb - fa) * fc / (fb - fc);
      fraction += (c - a) / (b - a) * fa / (fc - fa) * fb / (fc - fb);
    } else {
      fraction = 0.5;
    }
    if (step % 4 === 2) {
      if (width > 0.5 * wide) fraction = 0.5;
      wide = width;
    }
    const limit = tolerance / width;
    fraction = Math.min(1 - limit, Math.max(limit, fraction));
  }
  return NaN;
}

function significant(value, digits) {
  if (Number.isNaN(value)) return "not a number";
  if (!Number.isFinite(value)) return value < 0 ? "−∞" : "∞";
  if (value === 0) return "0";
  const [mantissa, exponent] = value.toExponential(digits - 1).split("e");
  const power = Number(exponent);
  if (power > -5 && power < Math.max(digits, 6)) {
    const text = mantissa.replace(/[-.]/g, "");
    const sign = value < 0 ? "-" : "";
    if (power < 0) return sign + "0." + "0".repeat(-power - 1) + text;
    const whole = text.slice(0, power + 1).padEnd(power + 1, "0");
    const rest = text.slice(power + 1);
    return sign + whole + (rest ? "." + rest : "");
  }
  return mantissa + "e" + power;
}

function concise(value, digits) {
  const [mantissa, power] = significant(value, digits).split("e");
  const short = mantissa.includes(".") ? mantissa.replace(/\.?0+$/, "") : mantissa;
  return power === undefined ? short : short + "e" + power;
}
