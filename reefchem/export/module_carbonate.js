// The hydrogen ion content at which carbon and all the rest make up an alkalinity, above ln H = low.
function searched(side, content, alkalinity, w, low = Math.log(LOWEST)) {
  const both = (h) => side(h, content, w.k).map((value, i) => value + otherAlkalinity(h, w)[i]);
  const h = Math.exp(findRoot((x) => both(Math.exp(x))[0] - alkalinity, low, Math.log(HIGHEST)));
  const [value, slope] = both(h);
  const step = (value - alkalinity) / slope;
  return Math.abs(step) < 1e-9 ? h * Math.exp(-step) : h;
}

// Alkalinity and carbonate: of two answers the one at lower pH, where the slope has turned.
function searchedCarbonate(alkalinity, carbonate, w) {
  const side = (h) => carbonFromCarbonate(h, carbonate, w.k);
  const slope = (x) => side(Math.exp(x))[1] + otherAlkalinity(Math.exp(x), w)[1];
  const turn = findRoot(slope, Math.log(LOWEST), Math.log(HIGHEST));
  const least = side(Math.exp(turn))[0] + otherAlkalinity(Math.exp(turn), w)[0];
  return least <= alkalinity ? searched(carbonFromCarbonate, carbonate, alkalinity, w, turn) : NaN;
}

function solvedPair(pair, x, y, w) {
  const k = w.k, alkalinity = MICRO * x;
  if (pair === "total_alkalinity,dic") return [searched(carbonFromDic, MICRO * y, alkalinity, w), null, null];
  if (pair === "total_alkalinity,pco2") {
    const co2 = MICRO * y * k.fugacity_factor * k.k0;
    const h = searched(carbonFromCo2, co2, alkalinity, w);
    return [h, co2 * (1 + k.k1 / h * (1 + k.k2 / h)), null];
  }
  if (pair === "total_alkalinity,carbonate") {
    const content = y > 0 ? MICRO * y : NaN;
    const h = searchedCarbonate(alkalinity, content, w);
    return [h, content * (1 + h / k.k2 * (1 + h / k.k1)), null];
  }
  return DIRECT[pair](x, y, w);
}

function sayRanges(chosen, withAmmonium, water) {
  const names = [...RANGES.carbonic[chosen.carbonic], ...RANGES.fluoride[chosen.fluoride], ...RANGES.always];
  if (withAmmonium) names.push(...RANGES.ammonium);
  const out = [];
  for (const [key, unit] of [["temperature", " degC"], ["salinity", ""]]) {
    for (const name of names) {
      const valid = records[name].arguments[key].valid;
      if (!valid || !(water[key] < valid[0] || water[key] > valid[1])) continue;
      out.push(`${key} is ${shown(water[key])}${unit}, ${name} covers ${shown(valid[0])} to ${shown(valid[1])}${unit}`);
    }
  }
  if (out.length) sayOutside(`carbonate_system: ${out.join("; ")}`, "The values are used as given");
}

function cannotBe(names, x, y, w, dic, alkalinity) {
  const told = `carbonate_system: ${names[0]} is ${shown(x)} and ${names[1]} is ${shown(y)}`;
  const pair = names.join();
  let why = `together they would need a dic of ${shown(dic)} umol/kg and a total_alkalinity of ${shown(alkalinity)} umol/kg`;
  if (pair === "dic,pco2") why = "of a dic only a part can be dissolved CO2";
  if (pair === "dic,carbonate") why = `of a dic only a part can be carbonate: above 0 and below ${shown(x)} umol/kg`;
  if (pair === "pco2,carbonate" && x * y === 0) why = "both must be above 0, or neither says what the pH is";
  if (pair === "total_alkalinity,carbonate") why = "this much carbonate comes with more alkalinity";
  throw new DomainError(`${told}; ${why}`);
}

function carbonate_system(salinity, temperature, total_alkalinity, dic, ph_total, pco2, carbonate, phosphate, silicate, ammonium, calcium, total_boron, chosen) {
  const five = { total_alkalinity, dic, ph_total, pco2, carbonate };
  const names = FIVE.filter((name) => five[name] !== null);
  if (names.length !== 2) {
    throw new TypeError(`carbonate_system takes two of ${FIVE.join(", ")}; it got ${names.join(", ") || "none"}`);
  }
  sayRanges(chosen, ammonium !== 0, { salinity, temperature });
  const [x, y] = names.map((name) => five[name]);
  const totals = {
    phosphate: MICRO * phosphate,
    silicate: MICRO * silicate,
    ammonium: MICRO * ammonium,
    boron: total_boron === null ? BORON[chosen.boron](salinity) : MICRO * total_boron,
  };
  const k = carbonateConstants(temperature, salinity, chosen), w = { ...totals, k };
  const [h, carbon, base] = solvedPair(names.join(), x, y, w);
  const found = { dic: dic ?? carbon / MICRO, alkalinity: total_alkalinity ?? base / MICRO };
  const possible = h > 0 && found.dic >= 0 && found.dic <= MOST && Math.abs(found.alkalinity) <= MOST;
  if (!possible && ![x, y, k.k1, ...Object.values(totals)].some(Number.isNaN)) {
    cannotBe(names, x, y, w, found.dic, found.alkalinity);
  }
  const state = {
    salinity, temperature, ...found, phosphate, silicate, ammonium,
    ph: ph_total ?? -Math.log(h) / Math.LN10,
    calcium: calcium ?? k.calcium / MICRO,
  };
  // Slopes against temperature: a little warmer and a little cooler, alkalinity and DIC held.
  const [warm, cool] = [HALF_STEP, -HALF_STEP].map((step) => {
    const near = carbonateConstants(temperature + step, salinity, chosen), water = { ...totals, k: near };
    const ion = searched(carbonFromDic, MICRO * found.dic, MICRO * found.alkalinity, water);
    return stateParts({ ...state, temperature: temperature + step, ph: -Math.log(ion) / Math.LN10 }, water, near);
  });
  const slope = (part) => (warm[part] - cool[part]) / (2 * HALF_STEP);
  return {
    ...stateParts(state, w, k),
    d_ph_d_temperature: slope("ph_total"),
    d_omega_aragonite_d_temperature: slope("omega_aragonite"),
  };
}
