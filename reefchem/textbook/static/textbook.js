// Live examples and exercises. Each is complete without this script; the script turns the given
// values into fields and computes every step again from the relations of the book.
(function () {
  "use strict";
  const { relations, significant, concise } = textbookLive;

  function start() {
    for (const section of document.querySelectorAll(".worked-example, .exercise")) {
      const source = section.querySelector("script.textbook-data");
      if (!source) continue;
      const data = JSON.parse(source.textContent);
      if (section.classList.contains("exercise")) new Exercise(section, data);
      else new Example(section, data);
    }
  }

  // Reading and showing numbers

  function readNumber(text) {
    const plain = text.trim().replace(/[−–]/g, "-").replace(/\s/g, "");
    if (/^[+-]?\d{1,3},\d{3}$/.test(plain)) return { fault: "write 2.5 or 2500; 2,500 could be either" };
    const dotted = plain.replace(",", ".");
    if (!/^[+-]?(\d+\.?\d*|\.\d+)(e[+-]?\d+)?$/i.test(dotted)) return { fault: "not a number" };
    const value = Number(dotted);
    return Number.isFinite(value) ? { value } : { fault: "too large" };
  }

  // A number as prose has it: a true minus sign, the power of ten raised.
  function signed(text) {
    const [mantissa, power] = text.split("e");
    const shown = mantissa.replace("-", "−");
    if (power === undefined) return shown;
    const raised = [...String(Number(power))].map((digit) => "⁰¹²³⁴⁵⁶⁷⁸⁹"[digit] ?? "⁻").join("");
    return `${shown} × 10${raised}`;
  }

  function textNumber(value) {
    return concise(value, 10);
  }

  const MATH = "http://www.w3.org/1998/Math/MathML";

  function mathPart(name, text) {
    const node = document.createElementNS(MATH, name);
    if (text !== undefined) node.textContent = text;
    return node;
  }

  // Puts a number into a formula, in brackets where it would be read wrongly without.
  function fillRow(row, text) {
    const [mantissa, power] = text.split("e");
    const parts = [];
    if (mantissa.startsWith("-")) parts.push(mathPart("mo", "−"));
    if (power === undefined || mantissa !== "1") parts.push(mathPart("mn", mantissa.replace("-", "")));
    if (power !== undefined) {
      const raised = mathPart("msup");
      const exponent = mathPart("mrow");
      if (power.startsWith("-")) exponent.append(mathPart("mo", "−"));
      exponent.append(mathPart("mn", power.replace(/[+-]/, "")));
      raised.append(mathPart("mn", "10"), exponent);
      if (parts.length && mantissa !== "-1") parts.push(mathPart("mo", "×"));
      parts.push(raised);
    }
    const brackets = row.dataset.alone === undefined
      && (mantissa.startsWith("-") || (power !== undefined && row.dataset.tight !== undefined));
    row.replaceChildren(...(brackets ? [mathPart("mo", "("), ...parts, mathPart("mo", ")")] : parts));
  }

  // The text of an address; one that is not well formed says nothing.
  function decoded(text) {
    try { return decodeURIComponent(text); } catch { return ""; }
  }

  function element(name, properties, ...children) {
    const node = Object.assign(document.createElement(name), properties);
    node.append(...children);
    return node;
  }

  // What is computed

  function judge(input, value) {
    const shown = (value) => signed(textNumber(value));
    const range = (low, high) => `${shown(low)} to ${shown(high)}`;
    if (input.lowest !== undefined && value < input.lowest)
      return { fault: `impossible: ${input.name} is ${shown(input.lowest)} or more` };
    if (input.highest !== undefined && value > input.highest)
      return { fault: `impossible: ${input.name} is ${shown(input.highest)} or less` };
    if (input.valid && (value < input.valid[0] || value > input.valid[1]))
      return { note: `outside the source's range, ${range(...input.valid)}; the value is used as given` };
    return {};
  }

  function computeSteps(data, values) {
    const done = {};
    return data.steps.map((step) => {
      const names = Object.keys(step.arguments);
      const outside = [];
      const inputs = names.map((name) => {
        const from = step.arguments[name];
        if (from.input !== undefined) return values[from.input];
        if (from.step === undefined) return from.value;
        const value = done[from.step] * from.factor + from.offset;
        const verdict = judge(from, value);
        if (verdict.fault) outside.push(verdict.fault);
        else if (verdict.note) outside.push(`${from.name}: ${verdict.note}`);
        return value;
      });
      const relation = relations[step.relation];
      done[step.id] = relation.value(...inputs);
      const details = relation.details(...inputs);
      return { names, inputs, outside: outside.join("; "), value: done[step.id], details };
    });
  }

  function answerOf(data, steps) {
    return (steps[steps.length - 1].value - data.answer.offset) / data.answer.factor;
  }

  function showSteps(section, data, steps) {
    data.steps.forEach((step, index) => {
      const box = section.querySelector(`[data-step="${step.id}"]`);
      const { names, inputs, outside, value, details } = steps[index];
      const shown = {};
      names.forEach((name, i) => { shown[`argument ${name}`] = textNumber(inputs[i]); });
      relations[step.relation].slots.forEach((slot, i) => { shown[slot] = concise(details[i], 6); });
      for (const place of box.querySelectorAll("[data-slot]")) {
        const text = shown[place.dataset.slot];
        if (place.namespaceURI === MATH) fillRow(place, text);
        else place.textContent = signed(text);
      }
      sayOutside(box, outside);
      box.querySelector(".result .number").textContent = signed(significant(value, data.digits));
    });
    const answer = section.querySelector("output.answer .number");
    if (answer) answer.textContent = signed(significant(answerOf(data, steps), data.digits));
  }

  // What an earlier step brings may lie outside the range of the relation that it goes into.
  function sayOutside(box, text) {
    const note = box.querySelector(".outside");
    note.textContent = text;
    note.hidden = !text;
  }

  function clearSteps(section) {
    for (const box of section.querySelectorAll(".step")) sayOutside(box, "");
    for (const place of section.querySelectorAll(".result .number, [data-slot]")) {
      if (place.namespaceURI === MATH) place.replaceChildren(mathPart("mn", "–"));
      else place.textContent = "–";
    }
  }

  // A field with its unit

  class Field {
    constructor(box, input, id, changed) {
      this.input = input;
      this.unit = input.units.find((unit) => unit.unit === input.unit) || input.units[0];
      const given = box.querySelector(".given");
      this.field = element("input", {
        type: "text", inputMode: "decimal", value: input.value, id, autocomplete: "off", size: 9,
      });
      const label = element("label", { htmlFor: id });
      const name = box.querySelector(".name");
      label.append(...name.childNodes);
      name.append(label);
      this.note = element("span", { className: "note", id: `${id}-note` });
      this.field.setAttribute("aria-describedby", this.note.id);
      given.replaceChildren(this.field, " ");
      if (input.units.length > 1) {
        this.choice = element("select", {});
        this.choice.setAttribute("aria-label", `unit of ${input.name}`);
        for (const unit of input.units)
          this.choice.append(element("option", { value: unit.unit, textContent: unit.label || "1" }));
        this.choice.value = this.unit.unit;
        this.choice.addEventListener("change", () => this.switchUnit(changed));
        given.append(this.choice);
      } else {
        given.append(this.unit.label);
      }
      box.append(this.note);
      this.field.addEventListener("input", changed);
      this.field.addEventListener("keydown", (event) => this.key(event, changed));
    }

    key(event, changed) {
      if (event.key === "Escape") {
        this.reset();
      } else if (event.key === "ArrowUp" || event.key === "ArrowDown") {
        const read = readNumber(this.field.value);
        if (read.fault) return;
        const places = (this.field.value.replace(",", ".").split(".")[1] || "").length;
        const step = (event.key === "ArrowUp" ? 1 : -1) * 10 ** -places;
        this.field.value = (read.value + step).toFixed(places);
      } else {
        return;
      }
      event.preventDefault();
      changed();
    }

    switchUnit(changed) {
      const value = this.value();
      this.unit = this.input.units.find((unit) => unit.unit === this.choice.value);
      if (value !== undefined)
        this.field.value = textNumber((value - this.unit.offset) / this.unit.factor);
      changed();
    }

    value() {
      const read = readNumber(this.field.value);
      return read.fault ? undefined : read.value * this.unit.factor + this.unit.offset;
    }

    check() {
      const read = readNumber(this.field.value);
      const verdict = read.fault ? read : judge(this.input, this.value());
      this.note.textContent = verdict.fault || verdict.note || "";
      this.note.classList.toggle("fault", Boolean(verdict.fault));
      this.field.setAttribute("aria-invalid", String(Boolean(verdict.fault)));
      return !verdict.fault;
    }

    isGiven() {
      return this.field.value === this.input.value && this.unit.unit === this.input.unit;
    }

    set(text, unit) {
      const known = this.input.units.find((choice) => choice.unit === unit);
      if (!known || readNumber(text).fault) return;
      this.field.value = text;
      this.unit = known;
      if (this.choice) this.choice.value = unit;
    }

    reset() {
      this.set(this.input.value, this.input.unit);
    }
  }

  class Example {
    constructor(section, data) {
      this.section = section;
      this.data = data;
      const changed = () => this.update();
      this.fields = data.inputs.map((input) => {
        const box = section.querySelector(`[data-input="${input.key}"]`);
        return new Field(box, input, `${data.id}-${input.key}`.replace(/\W/g, "-"), changed);
      });
      this.buildTools();
      this.fromAddress();
      window.addEventListener("hashchange", () => this.fromAddress());
      this.update(true);
    }

    buildTools() {
      this.back = element("button", { type: "button", textContent: "Back to the given values" });
      this.back.addEventListener("click", () => {
        this.fields.forEach((field) => field.reset());
        this.update();
        this.fields[0].field.focus();
      });
      this.link = element("a", { textContent: "Link to these numbers", href: `#${this.data.id}` });
      this.status = element("p", { className: "status" });
      this.status.setAttribute("role", "status");
      const tools = element("div", { className: "tools" }, this.back, this.link);
      this.section.querySelector(".inputs").after(tools, this.status);
      this.curve = new Curve(this);
    }

    fromAddress() {
      const [id, query] = decoded(location.hash.slice(1)).split("?");
      if (id !== this.data.id || !query) return;
      for (const pair of query.split("&")) {
        const [key, value] = pair.split("=");
        const [, number, unit] = /^([^ ]+) ?(.*)$/.exec(value || "") || [];
        const field = this.fields.find((f) => f.input.key === key);
        if (field && number) field.set(number, unit);
      }
      this.update();
      this.section.scrollIntoView({ behavior: "instant" });
    }

    values() {
      return Object.fromEntries(this.fields.map((field) => [field.input.key, field.value()]));
    }

    update(first) {
      const fine = this.fields.map((field) => field.check()).every(Boolean);
      const given = this.fields.every((field) => field.isGiven());
      this.section.classList.toggle("changed", !given);
      this.back.hidden = given;
      this.link.hidden = given || !fine;
      const query = this.fields
        .map((field) => `${field.input.key}=${field.field.value.trim().replace(",", ".")} ${field.unit.unit}`)
        .join("&");
      this.link.href = `#${this.data.id}?${encodeURIComponent(query)}`;
      if (given && first) {
        this.curve.draw();
        return;
      }
      let said = "", fault = false;
      if (fine) {
        const steps = computeSteps(this.data, this.values());
        const answer = answerOf(this.data, steps);
        showSteps(this.section, this.data, steps);
        fault = !Number.isFinite(answer);
        said = !fault
          ? `Result: ${signed(significant(answer, this.data.digits))} ${this.data.answer.unit}`
          : "No result exists for these numbers";
        this.section.dataset.result = String(answer);
      } else {
        clearSteps(this.section);
        fault = true;
        said = "A value cannot be used; see beside it";
        delete this.section.dataset.result;
      }
      clearTimeout(this.timer);
      this.status.classList.toggle("fault", fault);
      this.timer = setTimeout(() => { this.status.textContent = given ? "" : said; }, 400);
      this.curve.draw();
    }
  }

  // A small curve of the result over one input

  class Curve {
    constructor(example) {
      this.example = example;
      this.box = element("details", { className: "curve" },
        element("summary", { textContent: "Result over one input" }));
      this.choice = element("select", {});
      this.choice.setAttribute("aria-label", "input along the curve");
      for (const input of example.data.inputs)
        this.choice.append(element("option", { value: input.key, textContent: input.name }));
      this.plot = element("div", { className: "plot" });
      this.box.append(element("p", {}, "Over ", this.choice), this.plot);
      this.box.addEventListener("toggle", () => this.draw());
      this.choice.addEventListener("change", () => this.draw());
      example.section.append(this.box);
    }

    draw() {
      if (!this.box.open) return;
      const { data, fields } = this.example;
      const values = this.example.values();
      const field = fields.find((f) => f.input.key === this.choice.value);
      const here = values[field.input.key];
      if (Object.values(values).some((value) => value === undefined)) return this.plot.replaceChildren();
      const low = Math.min(field.input.span[0], here), high = Math.max(field.input.span[1], here);
      const shown = (x) => (x - field.unit.offset) / field.unit.factor;
      const at = (x) => answerOf(data, computeSteps(data, { ...values, [field.input.key]: x }));
      const points = [];
      for (let i = 0; i <= 80; i++) {
        const x = low + ((high - low) * i) / 80, y = at(x);
        if (Number.isFinite(y)) points.push([x, y]);
      }
      if (points.length < 2) return this.plot.replaceChildren("No curve for these numbers.");
      const ys = points.map((p) => p[1]);
      const bottom = Math.min(...ys), top = Math.max(...ys), tall = top - bottom || 1;
      const X = (x) => 60 + (320 * (x - low)) / (high - low);
      const Y = (y) => 150 - (130 * (y - bottom)) / tall;
      const path = points.map(([x, y], i) => `${i ? "L" : "M"}${X(x).toFixed(1)} ${Y(y).toFixed(1)}`).join("");
      const short = (value) => signed(concise(value, 4));
      const text = (x, y, anchor, words) =>
        `<text x="${x}" y="${y}" text-anchor="${anchor}">${words}</text>`;
      const y = at(here);
      const dot = Number.isFinite(y) ? `<circle cx="${X(here).toFixed(1)}" cy="${Y(y).toFixed(1)}" r="4"/>` : "";
      const unit = data.answer.unit;
      const label = `Result from ${short(bottom)} to ${short(top)} ${unit} as ${field.input.name} goes from ${short(shown(low))} to ${short(shown(high))} ${field.unit.label}`;
      this.plot.innerHTML =
        `<svg viewBox="0 0 400 190" role="img" aria-label="${label}"><path class="axes" d="M60 15V155H385"/>` +
        `<path class="line" d="${path}"/>${dot}` +
        text(55, 153, "end", short(bottom)) + text(55, 24, "end", short(top)) +
        text(60, 172, "middle", short(shown(low))) + text(380, 172, "end", short(shown(high))) +
        text(220, 187, "middle", `${field.input.name} ${field.unit.label ? `(${field.unit.label})` : ""}`) +
        text(60, 10, "start", unit ? `result (${unit})` : "result") + "</svg>";
    }
  }

  // Exercises

  function shares(seed) {
    let state = seed >>> 0;
    return () => {
      state = (state + 0x6d2b79f5) >>> 0;
      let mixed = Math.imul(state ^ (state >>> 15), state | 1);
      mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61);
      return ((mixed ^ (mixed >>> 14)) >>> 0) / 4294967296;
    };
  }

  class Exercise {
    constructor(section, data) {
      this.section = section;
      this.data = data;
      this.seed = data.seed;
      this.given = Object.fromEntries(data.inputs.map((input) => [input.key, input.value]));
      const id = `${data.id}-reply`;
      this.field = element("input", { type: "text", inputMode: "decimal", id, size: 10, autocomplete: "off" });
      this.unit = element("select", {});
      this.unit.setAttribute("aria-label", "unit of your answer");
      for (const unit of data.answerUnits)
        this.unit.append(element("option", { value: unit.unit, textContent: unit.label || "(no unit)" }));
      const ask = element("button", { type: "submit", textContent: "Check" });
      const other = element("button", { type: "button", textContent: "Other numbers" });
      this.verdict = element("p", { className: "verdict" });
      this.verdict.setAttribute("role", "status");
      const form = element("form", {},
        element("label", { htmlFor: id, textContent: "Your answer " }), this.field, " ", this.unit, " ", ask, " ", other);
      form.addEventListener("submit", (event) => { event.preventDefault(); this.judge(); });
      other.addEventListener("click", () => this.draw());
      section.querySelector(".reply").append(form, this.verdict);
      if (!data.draws.length) other.hidden = true;
    }

    values() {
      return Object.fromEntries(this.data.inputs.map((input) => {
        const unit = input.units.find((u) => u.unit === input.unit);
        return [input.key, Number(this.given[input.key]) * unit.factor + unit.offset];
      }));
    }

    judge() {
      const read = readNumber(this.field.value);
      if (read.fault) return this.say(`Your answer is ${read.fault === "not a number" ? "not a number yet" : read.fault}.`, "");
      const unit = this.data.answerUnits.find((u) => u.unit === this.unit.value);
      const steps = computeSteps(this.data, this.values());
      const truth = (steps[steps.length - 1].value - unit.offset) / unit.factor;
      const off = Math.abs(read.value - truth) / Math.abs(truth);
      const right = truth === 0 ? Math.abs(read.value) < 1e-12 : off <= this.data.within;
      this.say(right
        ? `Right: ${signed(significant(truth, 4))} ${unit.label}.`
        : `Not yet: ${significant(100 * off, 2)} % away. Look at the hint or the solution, or try again.`,
        right ? "right" : "wrong");
    }

    say(text, kind) {
      this.verdict.textContent = text;
      this.verdict.className = `verdict ${kind}`;
    }

    draw() {
      this.seed = (this.seed + 1) >>> 0;
      const next = shares(this.seed);
      for (const draw of this.data.draws) {
        const index = Math.floor(next() * draw.count);
        const scale = 10 ** draw.places;
        const value = Math.round(Number(draw.low) * scale) + index * Math.round(Number(draw.step) * scale);
        this.given[draw.key] = (value / scale).toFixed(draw.places);
      }
      const shown = {};
      for (const input of this.data.inputs) {
        const label = input.units.find((u) => u.unit === input.unit).label;
        const text = `${this.given[input.key].replace("-", "−")} ${label}`.trim();
        shown[input.key.split(".").pop()] = text;
        const box = this.section.querySelector(`[data-input="${input.key}"] .given`);
        if (box) box.textContent = text;
      }
      this.section.querySelector(".question").textContent =
        this.data.question.replace(/\{(\w+)\}/g, (whole, name) => shown[name] ?? whole);
      showSteps(this.section, this.data, computeSteps(this.data, this.values()));
      this.field.value = "";
      this.say("New numbers.", "");
    }
  }

  // An address of the index of relations that names one leads on to its entry.
  function leadOn() {
    const named = document.getElementById(decoded(location.hash.slice(1)));
    if (named && named.closest(".relation-index")) location.replace(named.querySelector("a").href);
  }

  start();
  leadOn();
})();
