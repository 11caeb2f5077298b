"use strict";
// The page of the trying bench. It asks the program for everything that is known of the clock;
// here are only scales, drawing and the hand. Nothing physical is computed.

// ---- small tools

const byId = id => document.getElementById(id);
const access = new URLSearchParams(location.search).get("key") || "";
const now = () => performance.now();
const finite = v => typeof v === "number" && isFinite(v);
const clamp = (v, lo, hi) => Math.min(Math.max(v, lo), hi);

// say sets a text, and touches nothing when it is the same: the page is painted on every move.
function say(node, text) {
  if (node.said !== text) {
    node.said = text;
    node.textContent = text;
  }
}

function show(node, seen) {
  if (node.hidden === seen) node.hidden = !seen;
}

// element makes an HTML element.
function element(parent, tag, values = {}, text) {
  const node = document.createElement(tag);
  for (const [name, value] of Object.entries(values)) node.setAttribute(name, value);
  if (text !== undefined) node.textContent = text;
  if (parent) parent.append(node);
  return node;
}

// shape makes an SVG element; put gives it new attributes.
function shape(parent, tag, values = {}) {
  const node = document.createElementNS("http://www.w3.org/2000/svg", tag);
  put(node, values);
  parent.append(node);
  return node;
}

// put touches nothing that stays as it is: most does, from one frame to the next.
function put(node, values) {
  const had = node.had || (node.had = {});
  for (const name in values) {
    if (had[name] === values[name]) continue;
    had[name] = values[name];
    node.setAttribute(name, values[name]);
  }
  return node;
}

// pool keeps shapes of a kind: they are made once and shown as far as they are needed.
function pool(over, tag, look, titled) {
  const parent = shape(over, "g"), nodes = [];
  let used = 0;
  return {
    start() { used = 0; },
    next(values, words) {
      const fresh = used === nodes.length;
      if (fresh) nodes.push(shape(parent, tag, { class: look }));
      const node = put(nodes[used++], values);
      if (node.away) node.removeAttribute("display");
      node.away = false;
      if (titled) say(node.title = node.title || shape(node, "title"), words || "");
      else if (words !== undefined) say(node, words);
      return node;
    },
    end() {
      for (let i = used; i < nodes.length; i++) {
        if (!nodes[i].away) nodes[i].setAttribute("display", "none");
        nodes[i].away = true;
      }
    },
  };
}

// three is a figure with the three digits that it bears, round a number without idle noughts.
const minus = text => text.replace("-", "−");
const three = v => finite(v) ? minus(Math.abs(v) < 100 ? v.toPrecision(3) : v.toFixed(0)) : "–";
const round = (v, digits = 3) => finite(v) ? minus(String(Number(v.toPrecision(digits)))) : "–";
const sentence = text => text && !/[.!?…]$/.test(text) ? text + "." : text || "";
const capital = text => text ? text[0].toUpperCase() + text.slice(1) : "";
const textWidth = (text, size) => text.length * size * 0.52;

// round125 is the least of 1, 2 and 5 times a power of ten that is not below v.
function round125(v) {
  const ten = 10 ** Math.floor(Math.log10(v) + 1e-9);
  for (const by of [1, 2, 5]) if (by * ten >= v * (1 - 1e-9)) return by * ten;
  return 10 * ten;
}
const digitsOf = step => Math.max(0, -Math.floor(Math.log10(step) + 1e-9));

const verdictWords = { stops: "stops", thin: "thin", suits: "suits", strong: "strong", overdriven: "overdriven" };
const hatches = { stops: "url(#rising)", overdriven: "url(#falling)", closed: "url(#crossed)" };
const ended = "The program has ended: start evenpull try again.";

// ---- what is tried

const page = { start: null, trials: [], shown: null, views: null };

// newTrial is what stands of one train while the page is open.
function newTrial(train) {
  const t = {
    train, name: train.name, found: train.found || {}, answer: train.found || {}, whole: false,
    set: {}, hold: "length", fill: null, even: false, // what is asked for
    rules: new Map(), values: {}, foundValues: {}, tracks: { ...train.found?.tracks }, extra: [], moving: null,
    held: null, turn: null, scale: null, order: "", views: new Map(), box: null,
  };
  for (const r of train.rules || []) adopt(t, r);
  t.past = [snapshot(t)];
  t.at = 0;
  return t;
}

// adopt takes a rule in; its first value is that of the clock as found.
function adopt(t, rule) {
  if (!t.rules.has(rule.key)) {
    t.foundValues[rule.key] = rule.value;
    t.values[rule.key] = rule.value;
  }
  t.rules.set(rule.key, rule);
}

const isLength = key => /\.mainspring\.length_/.test(key);
const isSetUp = key => /\.set_up_/.test(key);
const keyOf = (t, is) => [...t.rules.keys()].find(is);
const fixed = (rule, v) => finite(v) ? minus(v.toFixed(rule.digits ?? digitsOf(rule.step))) : "–";
const withUnit = (rule, v) => rule.unit ? fixed(rule, v) + " " + rule.unit : fixed(rule, v);

// The past: what was asked for, each time the hand rested.
const snapshot = t => JSON.stringify({ set: t.set, hold: t.hold, fill: t.fill, even: t.even });

function record(t) {
  const s = snapshot(t);
  if (s === t.past[t.at]) return;
  const one = t.keyed && t.keyed === t.recorded?.keyed && now() - t.recorded.when < 1000;
  t.past.length = one ? t.at : t.at + 1; // keys pressed one after the other are one step
  t.past.push(s);
  t.at = t.past.length - 1;
  t.recorded = { keyed: t.keyed, when: now() };
}

function restore(t, at) {
  if (at < 0 || at >= t.past.length) return;
  t.at = at;
  t.recorded = null;
  Object.assign(t, JSON.parse(t.past[at]));
  for (const key in t.foundValues) t.values[key] = t.set[key] ?? t.foundValues[key];
  changedByHand(t, null);
}

function undo() {
  record(page.shown);
  restore(page.shown, page.shown.at - 1);
}

function redo() {
  record(page.shown);
  restore(page.shown, page.shown.at + 1);
}

const isAsFound = t => !Object.keys(t.set).length && !t.even && t.hold === "length";

function putBack() {
  const t = page.shown;
  if (isAsFound(t)) return;
  record(t);
  t.recorded = null;
  Object.assign(t, { set: {}, hold: "length", fill: null, even: false });
  Object.assign(t.values, t.foundValues);
  changedByHand(t, null);
  record(t);
}

// ---- the hand

// snap puts a value on the steps of its rule.
function snap(rule, v, fine) {
  const step = fine && rule.fine > 0 ? rule.fine : rule.step;
  return clamp(+(Math.round(v / step) * step).toFixed(9), rule.from, rule.to);
}

// stepped is the next value by some steps, up or down; a value between two goes to the nearer end.
function stepped(rule, v, steps, fine) {
  const step = fine && rule.fine > 0 ? rule.fine : rule.step;
  const at = v / step;
  const whole = steps > 0 ? Math.floor(at + 1e-6) : Math.ceil(at - 1e-6);
  return clamp(+((whole + steps) * step).toFixed(9), rule.from, rule.to);
}

// move puts a rule to a value by hand.
function move(t, key, v, since = now(), keyed = null) {
  t.keyed = keyed;
  if (t.values[key] === v) return stillMoving();
  release(t, key);
  t.set[key] = v;
  t.values[key] = v;
  changedByHand(t, key, since);
}

// release lets what follows follow, and gives what is moved itself to the hand.
function release(t, key) {
  if (isSetUp(key)) t.even = false;
  const length = keyOf(t, isLength);
  if (t.hold !== "fill" || isLength(key) || !(length in t.set)) return;
  t.fill = t.answer.barrel?.fill ?? t.fill;
  delete t.set[length];
}

// keepWhat chooses what of the strip stays.
function keepWhat(t, what) {
  const length = keyOf(t, isLength);
  t.hold = what;
  if (what === "fill") {
    t.fill = t.answer.barrel?.fill ?? null;
    delete t.set[length];
  } else {
    t.fill = null;
    if (length && t.values[length] !== t.foundValues[length]) t.set[length] = t.values[length];
  }
  changedByHand(t, null);
}

// follow lets the set-up follow the most even, or leaves it where it is.
function follow(t, even) {
  const key = keyOf(t, isSetUp);
  t.even = even;
  if (even) delete t.set[key];
  else if (key && t.values[key] !== t.foundValues[key]) t.set[key] = t.values[key];
  changedByHand(t, null);
}

// stillMoving puts the rest off: a hand between two steps does not rest. The whole answer is
// asked for at once when it pauses; scale and words settle when it rests.
function stillMoving() {
  if (!wire.resting) return;
  clearTimeout(wire.pause);
  clearTimeout(wire.rest);
  wire.pause = setTimeout(pause, 25);
  wire.rest = setTimeout(rest, 150);
}

// changedByHand moves the handles at once, and asks.
function changedByHand(t, key, since = now()) {
  t.moving = key;
  if (!key) t.keyed = null;
  t.order = "";
  t.whole = false;
  paintHandles(t);
  paintChanged(t);
  wire.since = since;
  wire.resting = true;
  stillMoving();
  pump();
}

function pause() {
  wire.whole = true;
  pump();
}

// rest is when the hand has rested.
function rest() {
  const t = page.shown;
  wire.resting = false;
  record(t);
  t.moving = null;
  paintButtons(t);
  if (t.whole) return settled(t);
  if (!wire.busy?.whole) pause();
}

// settled is when the hand rests and its answer is whole.
function settled(t) {
  settle(t);
  announce(t);
  for (const [key, v] of t.views) say(v.note, trackWords(t, t.rules.get(key)));
  askOrder(t);
  soon(null);
}

// ---- the wire: one question at a time, the newest; old answers are dropped by their number

const wire = { number: 0, painted: 0, busy: null, since: null, whole: false, rest: 0, pause: 0, resting: false, swept: 0 };

async function post(path, body, signal) {
  let answer;
  try {
    answer = await fetch(path + "?key=" + encodeURIComponent(access), {
      method: "POST", headers: { "Content-Type": "application/json" }, body: JSON.stringify(body), signal,
    });
  } catch (e) {
    throw e.name === "AbortError" ? e : new Error(ended);
  }
  return read(answer);
}

async function read(answer) {
  const told = await answer.json().catch(() => ({}));
  if (!answer.ok) throw new Error(told.fault || "The program refused this, and did not say why.");
  return told;
}

// question is what is asked for, as the program wants it.
function question(t) {
  const length = keyOf(t, isLength);
  const byFill = t.hold === "fill" && !(length in t.set);
  return { train: t.name, set: t.set, hold: byFill ? "fill" : "length", fill: byFill ? t.fill : null, even: t.even, rules: [...t.rules.keys(), ...t.extra.filter(k => !t.rules.has(k))] };
}

// pump sends what is newest, once the last question is answered. A whole answer takes
// long: it is given up when the hand moves again.
function pump() {
  const known = wire.since === null ? null : recall(page.shown);
  if (known) {
    const since = wire.since;
    wire.since = null;
    receive(page.shown, known, { n: ++wire.number, whole: false, since });
    lookAhead(page.shown);
    if (wire.busy || !due(page.shown)) return;
    return void send(page.shown, false); // for the words along the other rules
  }
  const quick = wire.since !== null;
  if (wire.busy && quick && wire.busy.whole) {
    wire.busy.stop.abort();
    wire.busy = null;
    wire.whole = true;
  }
  if (wire.busy || !quick && !wire.whole) return;
  send(page.shown, !quick);
}

// asked tells what a question is to sweep and to draw. While one drags, the curve is asked
// for as often as it is answered, the words along the other rules some times a second:
// nobody reads them faster, and the answer comes sooner.
function asked(t, whole) {
  const keys = [...t.rules.keys()];
  if (whole) return { tracks: [...new Set([...keys, ...t.extra])], draws: 2000 };
  if (!due(t)) return { tracks: [], ...brief };
  wire.swept = now();
  return { tracks: keys.filter(k => k !== t.moving), ...brief };
}

const brief = { draws: 100, brief: true };
const due = t => !t.even && now() - wire.swept > 70;

async function send(t, whole) {
  const q = { n: ++wire.number, t, whole, since: wire.since, stop: new AbortController() };
  wire.busy = q;
  wire.since = null;
  if (whole) wire.whole = false;
  try {
    const asks = question(t);
    const a = await post("run", { ...asks, ...asked(t, whole) }, q.stop.signal);
    if (!whole) remember(asks, a);
    if (q.n > wire.painted && t === page.shown) receive(t, a, q);
  } catch (e) {
    if (e.name !== "AbortError") refused(t, e);
  }
  if (wire.busy === q) {
    wire.busy = null;
    pump();
  }
  lookAhead(t);
}

// ---- what is known already, and what is asked ahead
// The same question has the same answer: one that is known is painted in the frame of the
// move that asks it. While the hand holds a rule, its next steps to both sides are asked
// ahead, one at a time and only while nothing else is.

const ahead = { answers: new Map(), most: 150, steps: 4, busy: false };

function remember(asks, a) {
  ahead.answers.set(JSON.stringify(asks), a);
  if (ahead.answers.size > ahead.most) ahead.answers.delete(ahead.answers.keys().next().value);
}

const recall = t => ahead.answers.get(JSON.stringify(question(t)));

// nextUnknown is the question of the nearest step that has no answer yet.
function nextUnknown(t) {
  const rule = t.rules.get(t.moving), here = t.set[t.moving];
  if (!rule || !finite(here)) return null;
  for (let n = 1; n <= ahead.steps; n++) {
    for (const v of [snap(rule, here + n * rule.step), snap(rule, here - n * rule.step)]) {
      const asks = question(t);
      asks.set = { ...asks.set, [t.moving]: v };
      if (!ahead.answers.has(JSON.stringify(asks))) return asks;
    }
  }
  return null;
}

async function lookAhead(t) {
  const asks = t === page.shown && t.moving && !ahead.busy && !wire.busy ? nextUnknown(t) : null;
  if (!asks) return;
  ahead.busy = true;
  try {
    remember(asks, await post("run", { ...asks, tracks: [], ...brief }));
  } catch {
    return; // what matters of it will be told when it is asked in earnest
  } finally {
    ahead.busy = false;
  }
  lookAhead(t);
}

function refused(t, e) {
  if (e.message === ended) {
    say(byId("sentence"), ended);
    say(byId("told"), ended);
    byId("verdict").className = "stops";
    return;
  }
  tell(e.message, true);
}

// receive takes an answer in. The ends of a rule change only when the hand rests.
function receive(t, a, q) {
  wire.painted = q.n;
  t.answer = a;
  t.whole = q.whole;
  const calm = wire.since === null;
  for (const [key, rule] of Object.entries(a.rules || {})) takeRule(t, key, rule, calm && q.whole && !wire.resting);
  for (const [key, v] of Object.entries(a.values || {})) {
    if (!(key in t.set) && key !== t.moving && finite(v)) t.values[key] = v;
  }
  Object.assign(t.tracks, a.tracks || {});
  if (calm && q.whole && !wire.resting) settled(t);
  soon(q.since);
}

function takeRule(t, key, rule, calm) {
  const old = t.rules.get(key);
  if (!old) {
    adopt(t, { key, ...rule });
    t.extra = t.extra.filter(k => k !== key);
    showRules(t);
  } else if (calm) t.rules.set(key, { ...old, ...rule });
  else old.closed = rule.closed;
}

// announce reads the sentence to those who hear the page, when the hand rests.
function announce(t) {
  say(byId("told"), finding(t.answer));
}

// tell says what was done, or why not.
function tell(text, fault) {
  const said = byId("said");
  said.classList.toggle("fault", !!fault);
  say(said, text);
}

// ---- painting, once a frame

window.evenpullTimes = [];
const frame = { asked: false, since: null };

function soon(since) {
  if (since !== null && since !== undefined && frame.since === null) frame.since = since;
  if (frame.asked) return;
  frame.asked = true;
  requestAnimationFrame(paint);
}

function paint() {
  frame.asked = false;
  const t = page.shown;
  if (!t) return;
  paintSentence(t);
  paintRun(t);
  paintBarrel(t);
  paintSpare(t);
  paintFigures(t);
  paintRules(t);
  paintChanged(t);
  paintButtons(t);
  paintRest(t);
  if (frame.since !== null) {
    evenpullTimes.push(now() - frame.since);
    if (evenpullTimes.length > 1000) evenpullTimes.shift();
    frame.since = null;
  }
}

// ---- the sentence

// finding is the verdict, how sure, and the fact that decides; or why there is none.
function finding(a) {
  const says = a.says || {};
  if (a.fault) return sentence(a.fault);
  return join(says.verdict || capital((says.word || "").toLowerCase()), says.fact) || "Nothing is known of this.";
}

// troubles are the faults that the finding does not tell already.
function troubles(a) {
  const told = finding(a).toLowerCase();
  return (a.says?.trouble || []).filter(f => !told.includes(f.toLowerCase().replace(/\.$/, ""))).map(f => sentence(capital(f)));
}

const join = (...parts) => parts.filter(Boolean).map(p => sentence(capital(p))).join(" ");

const lookOf = a => a.fault ? "closed" : (a.says?.word || "").toLowerCase();

function paintSentence(t) {
  say(byId("sentence"), finding(t.answer));
  byId("verdict").className = lookOf(t.answer);
  say(byId("trouble"), troubles(t.answer).join(" "));
  const held = byId("held-sentence");
  show(held, !!t.held);
  if (t.held) say(held, `Held, ${t.held.words}: ${finding(t.held.answer)}`);
}

// ---- the run

const plot = { w: 0, h: 0, left: 46, right: 88, top: 10, bottom: 24 };

function makePlot() {
  const svg = shape(byId("plot"), "svg", { "aria-hidden": "true", focusable: "false" });
  Object.assign(plot, { svg, frame: shape(shape(shape(svg, "defs"), "clipPath", { id: "frame" }), "rect") });
  const layer = clipped => shape(svg, "g", clipped ? { "clip-path": "url(#frame)" } : {});
  const back = layer(false), inside = layer(true), front = layer(false);
  plot.grid = pool(back, "line", "grid");
  plot.numbers = pool(back, "text", "number");
  plot.lost = put(shape(inside, "rect"), { fill: "url(#crossed)" });
  plot.veil = shape(inside, "path", { class: "veil" });
  plot.whiskers = shape(inside, "path", { class: "whisker" });
  plot.dots = pool(inside, "circle", "dot", true);
  plot.found = shape(inside, "path", { class: "found", id: "found" });
  plot.need = shape(inside, "line", { class: "need" });
  plot.held = shape(inside, "path", { class: "held", id: "held" });
  plot.gone = shape(inside, "path", { class: "gone" });
  plot.curve = shape(inside, "path", { class: "trial", id: "curve" });
  plot.chosen = shape(inside, "line", { class: "chosen" });
  plot.ring = shape(inside, "circle", { class: "ring", r: 5 });
  plot.cross = shape(front, "path", { class: "cross" });
  plot.words = pool(front, "text", "mark");
  plot.bands = pool(front, "rect", "band", true);
  plot.bandHatch = pool(front, "rect", "");
  plot.bandWords = pool(front, "text", "word");
  plot.least = shape(front, "path", { class: "least" });
  plot.axes = shape(front, "path", { class: "axis" });
}

// sizePlot fits the drawing to its place: letters stay as large as they are.
function sizePlot(w, h) {
  if (!(w > 0 && h > 0)) return;
  Object.assign(plot, { w, h });
  put(plot.svg, { viewBox: `0 0 ${w} ${h}` });
  put(plot.frame, { x: plot.left, y: plot.top, width: w - plot.left - plot.right, height: h - plot.top - plot.bottom });
}

const greatest = (curve, at) => (curve || []).reduce((m, p) => finite(p[at]) && p[at] > m ? p[at] : m, 0);

// settle sets the scale of the run anew when a curve leaves it or fills less than half of it.
function settle(t) {
  const all = Math.max(greatest(t.answer.curve, 1), greatest(t.answer.curve, 3), greatest(t.found.curve, 1), greatest(t.held?.answer.curve, 1), 1.1 * (t.answer.need_nm || 0));
  const turns = Math.max(t.answer.turns?.of || 0, t.found.turns?.of || 0, t.held?.answer.turns?.of || 0) || 1;
  const spare = Math.max(t.answer.spare?.turns || 0, t.found.spare?.turns || 0, 1);
  const s = t.scale || (t.scale = { torque: 0, turns: 0, spare: 0 });
  if (all > s.torque || all < 0.5 * s.torque) s.torque = roundUp(1.3 * (all || 1));
  if (turns > s.turns || turns < 0.5 * s.turns) s.turns = turns;
  if (spare > s.spare || spare < 0.5 * s.spare) s.spare = Math.ceil(1.3 * spare);
}

function roundUp(v) {
  const step = round125(v / 12);
  return Math.ceil(v / step - 1e-9) * step;
}

const xOf = (t, turn) => plot.left + turn / t.scale.turns * (plot.w - plot.left - plot.right);
const yOf = (t, torque) => plot.h - plot.bottom - torque / t.scale.torque * (plot.h - plot.top - plot.bottom);

// trace is a path through points; where there is no number it is broken.
function trace(t, points, at) {
  let d = "", pen = "M";
  for (const p of points) {
    if (!finite(p[0]) || !finite(p[at])) {
      pen = "M";
      continue;
    }
    d += pen + xOf(t, p[0]).toFixed(1) + " " + yOf(t, p[at]).toFixed(1);
    pen = "L";
  }
  return d;
}

// split parts a curve where the train stops.
function split(curve, at) {
  if (!finite(at)) return [curve, []];
  const goes = curve.filter(p => p[0] < at), gone = curve.filter(p => p[0] >= at);
  const stop = between(curve, at);
  return stop ? [[...goes, stop], [stop, ...gone]] : [goes, gone];
}

// between is the point of a curve at a turn, on the line drawn between its neighbours.
function between(curve, turn) {
  const i = curve.findIndex(p => p[0] >= turn - 1e-9);
  if (i < 0) return null;
  if (i === 0 || Math.abs(curve[i][0] - turn) < 1e-9) return curve[i];
  const [a, b] = [curve[i - 1], curve[i]], share = (turn - a[0]) / (b[0] - a[0]);
  return a.map((v, k) => finite(v) && finite(b[k]) ? v + share * (b[k] - v) : null);
}

function paintRun(t) {
  if (!t.scale) settle(t);
  if (!plot.w) return;
  const a = t.answer, curve = a.curve || [];
  const [goes, gone] = split(curve, a.turns?.stops_at);
  paintAxes(t);
  put(plot.curve, { d: trace(t, goes, 1) });
  put(plot.gone, { d: trace(t, gone, 1) });
  put(plot.found, { d: trace(t, t.found.curve || [], 1) });
  put(plot.held, { d: t.held ? trace(t, t.held.answer.curve || [], 1) : "" });
  paintVeil(t, curve);
  paintLost(t, a.turns?.lost || 0);
  paintCross(t, gone);
  paintNeed(t, a);
  paintBands(t, a);
  paintReadings(t);
  paintTurn(t);
  show(byId("mark-held"), !!t.held);
  show(byId("mark-gone"), gone.length > 1);
}

function paintAxes(t) {
  const bottom = plot.h - plot.bottom, right = plot.w - plot.right;
  plot.grid.start();
  plot.numbers.start();
  const step = round125(t.scale.torque / Math.max(2, Math.floor((bottom - plot.top) / 42)));
  for (let v = 0; v <= t.scale.torque * 1.0001; v += step) {
    const y = yOf(t, v);
    if (v > 0) plot.grid.next({ x1: plot.left, x2: right, y1: y, y2: y });
    plot.numbers.next({ x: plot.left - 6, y: y + 4, "text-anchor": "end" }, v ? v.toFixed(digitsOf(step)) : "0");
  }
  const turns = Math.max(1, round125(t.scale.turns / Math.floor((right - plot.left) / 30)));
  for (let v = 0; v <= t.scale.turns + 1e-6; v += turns) {
    const x = xOf(t, v);
    plot.grid.next({ x1: x, x2: x, y1: bottom, y2: bottom + 4 });
    plot.numbers.next({ x, y: bottom + 16, "text-anchor": "middle" }, String(v));
  }
  plot.grid.end();
  plot.numbers.next({ x: right + 12, y: bottom + 16, "text-anchor": "start" }, "turns");
  plot.numbers.end();
  put(plot.axes, { d: `M${plot.left} ${plot.top}V${bottom}H${right}` });
}

function paintVeil(t, curve) {
  const known = curve.filter(p => finite(p[2]) && finite(p[3]));
  put(plot.veil, { d: known.length > 1 ? trace(t, known, 3) + trace(t, known.slice().reverse(), 2).replace("M", "L") + "Z" : "" });
  show(byId("mark-veil"), known.length > 1);
}

function paintLost(t, lost) {
  put(plot.lost, { x: plot.left, y: plot.top, width: lost > 0 ? xOf(t, lost) - plot.left : 0, height: plot.h - plot.top - plot.bottom });
}

function paintCross(t, gone) {
  if (!gone.length || !finite(gone[0][1])) return put(plot.cross, { d: "" });
  const x = xOf(t, gone[0][0]), y = yOf(t, gone[0][1]), r = 7;
  put(plot.cross, { d: `M${x - r} ${y - r}l${2 * r} ${2 * r}m0 ${-2 * r}l${-2 * r} ${2 * r}` });
}

// paintNeed draws the need, and the words within the drawing.
function paintNeed(t, a) {
  const known = finite(a.need_nm), y = known ? yOf(t, a.need_nm) : -99;
  put(plot.need, { x1: plot.left, x2: plot.w - plot.right, y1: y, y2: y });
  plot.words.start();
  if (known) plot.words.next({ "text-anchor": "start", x: plot.left + 8, y: y + 16 > plot.h - plot.bottom - 2 ? y - 6 : y + 16 }, "needed: " + three(a.need_nm) + " N·m");
  const lost = a.turns?.lost || 0, stops = a.turns?.stops_at;
  if (lost > 0) plot.words.next({ "text-anchor": "start", x: plot.left + 8, y: plot.top + 16 }, round(lost) + (lost === 1 ? " turn lost" : " turns lost"));
  if (finite(stops)) plot.words.next({ x: plot.w - plot.right - 6, y: plot.top + 16, "text-anchor": "end" }, "stops at turn " + round(stops));
  if (a.fault) plot.words.next({ x: (plot.left + plot.w - plot.right) / 2, y: plot.h / 2, "text-anchor": "middle" }, "no run: it cannot be built so");
  plot.words.end();
}

// paintBands lays the verdicts in the margin, and an arrow at the least pull.
function paintBands(t, a) {
  const x = plot.w - plot.right + 12, width = plot.right - 14;
  plot.bands.start();
  plot.bandHatch.start();
  plot.bandWords.start();
  for (const b of a.bands || []) {
    const hi = finite(b.to_nm) ? Math.min(b.to_nm, t.scale.torque) : t.scale.torque;
    if (!(hi > b.from_nm)) continue;
    const y = yOf(t, hi), height = yOf(t, b.from_nm) - y;
    plot.bands.next({ x, y, width, height, class: "band " + b.verdict }, verdictWords[b.verdict] || b.verdict);
    if (hatches[b.verdict]) plot.bandHatch.next({ x, y, width, height, fill: hatches[b.verdict] });
    if (height >= 12) plot.bandWords.next({ x: x + width / 2, y: y + height / 2 + 4, class: "word on-" + b.verdict }, verdictWords[b.verdict] || b.verdict);
  }
  plot.bands.end();
  plot.bandHatch.end();
  plot.bandWords.end();
  const pulls = (a.curve || []).map(p => p[1]).filter(finite), least = Math.min(...pulls);
  const y = pulls.length ? yOf(t, Math.min(least, t.scale.torque)) : -99;
  put(plot.least, { d: `M${x} ${y}l-9 -5v10z` });
}

function paintReadings(t) {
  const list = t.train.readings || [];
  let whiskers = "";
  plot.dots.start();
  for (const r of list) {
    const x = xOf(t, r.fusee_turn), y = yOf(t, r.torque_nm), half = r.half_width_nm;
    if (half > 0) whiskers += whisker(x, yOf(t, r.torque_nm + half), yOf(t, r.torque_nm - half));
    plot.dots.next({ cx: x, cy: y, r: 3.2 }, `spring ${r.spring}, turn ${round(r.fusee_turn)}: ${three(r.torque_nm)} N·m`);
  }
  plot.dots.end();
  put(plot.whiskers, { d: whiskers });
  show(byId("mark-bench"), list.length > 0);
}

const whisker = (x, hi, lo) => `M${x} ${hi}V${lo}M${x - 3} ${hi}h6M${x - 3} ${lo}h6`;

// ---- the chosen turn

const knots = t => (t.answer.curve || []).filter(p => finite(p[1]));

function nearest(points, turn) {
  return points.reduce((best, p) => !best || Math.abs(p[0] - turn) < Math.abs(best[0] - turn) ? p : best, null);
}

function choose(t, turn) {
  t.turn = turn;
  soon(null);
}

function paintTurn(t) {
  const points = knots(t), p = finite(t.turn) ? nearest(points, t.turn) : null;
  const text = p ? turnWords(t, p) : points.length ? "Point at the curve, or use the arrow keys on it, for a turn." : "";
  say(byId("reading"), text);
  put(byId("plot"), { "aria-valuemax": t.scale.turns, "aria-valuenow": p ? +p[0].toFixed(2) : 0, "aria-valuetext": p ? text : "no turn chosen" });
  const x = p ? xOf(t, p[0]) : -99;
  put(plot.chosen, { x1: x, x2: x, y1: plot.top, y2: plot.h - plot.bottom });
  put(plot.ring, { cx: x, cy: p ? yOf(t, p[1]) : -99 });
  paintBlows(t);
}

// turnWords tells the torque at a turn.
function turnWords(t, p) {
  const row = (t.answer.run?.trains?.[0]?.turns || []).find(r => Math.abs(r.fusee_turn - p[0]) < 1e-6);
  let text = `Turn ${round(p[0])}`;
  if (finite(row?.hours)) text += `, ${three(row.hours)} h on`;
  text += `: ${three(p[1])} N·m`;
  if (finite(p[2]) && finite(p[3])) text += `, 95 in 100 from ${three(p[2])} to ${three(p[3])}`;
  const blow = nearest(t.answer.blows || [], p[0]);
  if (blow && finite(blow[1])) text += `; a blow every ${three(blow[1])} s`;
  return text;
}

function turnByKey(e) {
  const t = page.shown, points = knots(t);
  if (!points.length) return;
  const first = points[0][0], last = points[points.length - 1][0], at = finite(t.turn) ? t.turn : first - 1;
  const to = { ArrowRight: at + 1, ArrowUp: at + 1, ArrowLeft: at - 1, ArrowDown: at - 1, PageUp: at + 5, PageDown: at - 5, Home: first, End: last }[e.key];
  if (to === undefined) return;
  e.preventDefault();
  choose(t, clamp(Math.round(to), first, last));
}

function turnByPointer(e) {
  const t = page.shown, box = byId("plot").getBoundingClientRect();
  if (!t?.scale) return;
  const turn = (e.clientX - box.left - plot.left) / (plot.w - plot.left - plot.right) * t.scale.turns;
  const p = turn >= -0.5 && turn <= t.scale.turns + 0.5 ? nearest(knots(t), turn) : null;
  if (p && p[0] !== t.turn) choose(t, p[0]);
}

// ---- the barrel

const barrel = {};

function makeBarrel() {
  for (const [name, words] of [["down", "run down"], ["wound", "wound"]]) {
    const figure = element(byId("sections"), "figure");
    const svg = shape(figure, "svg", { role: "img", "aria-label": "The barrel " + words });
    barrel[name] = {
      svg, wall: shape(svg, "circle", { class: "wall" }), arbor: shape(svg, "circle", { class: "arbor" }),
      coils: shape(svg, "path", { class: "coils", id: "barrel-" + name }),
    };
    element(figure, "figcaption", {}, words);
  }
}

// paintBarrel draws both sections in mm; the strip is as thick as it is.
function paintBarrel(t) {
  const b = t.answer.barrel;
  for (const name of ["down", "wound"]) {
    const s = barrel[name];
    put(s.coils, { d: b ? coilOnce(s, b[name] || []) : "", "stroke-width": b?.strip_mm || 0 });
    if (!b) continue;
    const wall = Math.max((b.outside_mm - b.inside_mm) / 2 || 0, 0.02 * b.inside_mm), r = b.inside_mm / 2 + wall;
    put(s.svg, { viewBox: `${-r} ${-r} ${2 * r} ${2 * r}` });
    put(s.wall, { r: r - wall / 2, "stroke-width": wall });
    put(s.arbor, { r: b.arbor_mm / 2 });
  }
}

// coilOnce does not lay anew coils that lie as they lay: width moves none.
function coilOnce(s, points) {
  const mid = points[points.length >> 1], mark = [points.length, mid, points[points.length - 1]].join();
  if (s.mark !== mark) Object.assign(s, { mark, d: coil(points) });
  return s.d;
}

// coil is a smooth line through the points of a strip: few points make round coils.
function coil(points) {
  if (points.length < 2) return "";
  const at = (x, y) => (Math.round(x * 100) / 100) + " " + (Math.round(y * 100) / 100);
  let d = "M" + at(...points[0]);
  for (let i = 1; i < points.length; i++) {
    const [a, b] = [points[i - 1], points[i]], before = points[i - 2] || a, after = points[i + 1] || b;
    d += "C" + at(a[0] + (b[0] - before[0]) / 6, a[1] + (b[1] - before[1]) / 6) + " " + at(b[0] - (after[0] - a[0]) / 6, b[1] - (after[1] - a[1]) / 6) + " " + at(...b);
  }
  return d;
}

// ---- the turns to spare

const bar = {};

function makeSpare() {
  const svg = bar.svg = byId("spare");
  bar.have = shape(svg, "rect", { class: "have" });
  bar.last = shape(svg, "rect", { fill: "url(#rising)" });
  bar.wanted = shape(svg, "path", { class: "tick" });
  bar.axis = shape(svg, "path", { class: "axis" });
}

function paintSpare(t) {
  const s = t.answer.spare, w = bar.w || 0, h = 14;
  const x = v => clamp(v / t.scale.spare, 0, 1) * (w - 2) + 1;
  const turns = finite(s?.turns) ? Math.max(s.turns, 0) : 0, wanted = s?.wanted || 0;
  put(bar.svg, { viewBox: `0 0 ${w} ${h + 5}` });
  put(bar.have, { x: 1, y: 1, width: x(turns) - 1, height: h });
  put(bar.last, { x: 1, y: 1, width: x(Math.min(turns, wanted)) - 1, height: h });
  put(bar.wanted, { d: wanted > 0 ? `M${x(wanted)} 0V${h + 5}` : "" });
  let ticks = `M1 1V${h + 1}H${w - 1}`;
  for (let v = 1; v <= t.scale.spare; v++) ticks += `M${x(v)} ${h + 1}v4`;
  put(bar.axis, { d: ticks });
  say(byId("spare-words"), s?.words || "No turns to spare are known.");
}

// ---- the figures

const figures = [];

function paintFigures(t) {
  const list = t.answer.words?.length ? t.answer.words : (t.found.words || []).map(w => ({ words: w.words, value: "–" }));
  const body = byId("figures").tBodies[0];
  const value = (a, words) => (a?.words || []).find(w => w.words === words)?.value ?? "–";
  while (figures.length < list.length) {
    const row = element(body, "tr");
    figures.push({ row, head: element(row, "th", { scope: "row" }), found: element(row, "td"), trial: element(row, "td"), held: element(row, "td") });
  }
  figures.forEach((f, i) => {
    show(f.row, i < list.length);
    if (i >= list.length) return;
    say(f.head, list[i].words);
    say(f.found, value(t.found, list[i].words));
    say(f.trial, list[i].value);
    show(f.held, !!t.held);
    if (t.held) say(f.held, value(t.held.answer, list[i].words));
  });
  show(byId("held-head"), !!t.held);
}

// ---- the rules

const band = { pad: 12, top: 2, strip: 19, h: 50 };

// viewOf is how a rule stands on the page; it is made once.
function viewOf(t, key) {
  let v = t.views.get(key);
  if (!v) t.views.set(key, v = makeRule(t, key));
  return v;
}

function makeRule(t, key) {
  const rule = t.rules.get(key), id = "r" + t.name.length + "-" + [...t.views.keys()].length + "-" + page.trials.indexOf(t);
  const root = element(null, "div", { class: "rule", "data-rule": key });
  const head = element(root, "div", { class: "head" });
  element(head, "label", { for: id, id: id + "-l" }, capital(rule.words));
  const v = { t, key, root, w: 0, id };
  v.box = element(head, "input", { id, type: "text", inputmode: "decimal", autocomplete: "off", size: 7 });
  element(head, "span", { class: "unit" }, rule.unit || "");
  v.says = element(head, "span", { class: "aside" });
  if (!(t.train.rules || []).some(r => r.key === key)) putAwayButton(v, head, rule);
  v.track = element(root, "div", { class: "track" });
  drawRule(v);
  v.handle = element(v.track, "div", { class: "handle", role: "slider", tabindex: 0, "aria-label": rule.words, "aria-orientation": "horizontal", "aria-describedby": id + "-n" });
  v.note = element(root, "p", { class: "unseen", id: id + "-n" });
  hear(v);
  return v;
}

function putAwayButton(v, head, rule) {
  const away = element(head, "button", { type: "button", class: "away", "aria-label": "put away: " + rule.words }, "put away");
  away.addEventListener("click", () => putAway(v.t, v.key));
}

function drawRule(v) {
  const svg = v.svg = shape(v.track, "svg", { "aria-hidden": "true", focusable: "false" });
  v.tints = pool(svg, "rect", "band", true);
  v.hatch = pool(svg, "rect", "over");
  v.closed = pool(svg, "rect", "shut", true);
  v.words = pool(svg, "text", "word");
  v.ticks = shape(svg, "path", { class: "tick" });
  v.numbers = pool(svg, "text", "number");
  v.foundMark = shape(svg, "path", { class: "found-mark" });
  shape(v.foundMark, "title").textContent = "as found";
  v.notches = pool(svg, "path", "notch", true);
  v.pip = shape(svg, "path", { class: "pip" });
  shape(v.pip, "title").textContent = "most even here";
}

const ruleX = (v, rule, value) => band.pad + (value - rule.from) / (rule.to - rule.from || 1) * (v.w - 2 * band.pad);
const ruleValue = (v, rule, x) => rule.from + (x - band.pad) / (v.w - 2 * band.pad || 1) * (rule.to - rule.from);

function paintRules(t) {
  for (const key of t.rules.keys()) if (t.views.has(key)) paintRule(t.views.get(key));
  paintHandles(t);
}

function paintRule(v) {
  const t = v.t, rule = t.rules.get(v.key);
  if (!v.w) return;
  paintTints(v, rule, t.tracks[v.key] || []);
  paintClosed(v, rule);
  paintRuler(v, rule);
  const x = ruleX(v, rule, t.foundValues[v.key]);
  put(v.foundMark, { d: `M${x} ${band.top}V${band.h - 14}` });
  const even = isSetUp(v.key) ? t.answer.even_at : null;
  const e = finite(even) && even >= rule.from && even <= rule.to ? ruleX(v, rule, even) : -99, y = band.top + band.strip;
  put(v.pip, { d: `M${e} ${y - 7}l5 7l-5 7l-5 -7z` });
}

// paintTints lays the verdicts along the track: tints, words and hatches.
function paintTints(v, rule, track) {
  v.tints.start();
  v.hatch.start();
  const spans = [];
  for (const s of track) {
    const look = s.verdict || "closed", a = ruleX(v, rule, clamp(s.from, rule.from, rule.to)), b = ruleX(v, rule, clamp(s.to, rule.from, rule.to));
    const at = { x: a, y: band.top, width: Math.max(b - a, 0), height: band.strip };
    const words = verdictWords[s.verdict] || "cannot be built";
    v.tints.next({ ...at, class: "band " + look }, s.verdict ? words : `${words}: ${s.why || ""}`);
    if (hatches[look]) v.hatch.next({ ...at, fill: hatches[look] });
    spans.push({ a, b, look, words });
  }
  v.tints.end();
  v.hatch.end();
  placeWords(v, spans);
}

// placeWords writes the verdicts where there is room; what suits is written first, even
// where it is narrow, and its neighbours give way.
function placeWords(v, spans) {
  const taken = [];
  const free = (lo, hi) => lo >= 0 && hi <= v.w && taken.every(([a, b]) => hi <= a || lo >= b);
  v.words.start();
  for (const s of [...spans].sort((p, q) => (q.look === "suits") - (p.look === "suits") || (q.b - q.a) - (p.b - p.a))) {
    const half = textWidth(s.words, 12) / 2 + 2, mid = clamp((s.a + s.b) / 2, half, v.w - half);
    if (s.look !== "suits" && s.b - s.a < 2 * half - 2 || !free(mid - half, mid + half)) continue;
    taken.push([mid - half, mid + half]);
    v.words.next({ x: mid, y: band.top + 14, class: "word on-" + s.look }, s.words);
  }
  v.words.end();
}

function paintClosed(v, rule) {
  v.closed.start();
  for (const c of rule.closed || []) {
    const a = ruleX(v, rule, clamp(c.from, rule.from, rule.to)), b = ruleX(v, rule, clamp(c.to, rule.from, rule.to));
    if (b > a) v.closed.next({ x: a, y: band.top + band.strip, width: b - a, height: 14, fill: hatches.closed }, c.words);
  }
  v.closed.end();
}

// paintRuler draws ticks and numbers; they change only with the rule's ends and width.
function paintRuler(v, rule) {
  const kind = [v.w, rule.from, rule.to, rule.step, JSON.stringify(rule.notches || [])].join();
  if (v.kind === kind) return;
  v.kind = kind;
  const px = (v.w - 2 * band.pad) / (rule.to - rule.from), y = band.top + band.strip;
  const { minor, major } = ruling(rule.step, px);
  let d = `M${band.pad} ${y}H${v.w - band.pad}`;
  v.numbers.start();
  for (let i = Math.ceil(rule.from / minor - 1e-6); i * minor <= rule.to + 1e-9; i++) {
    const value = i * minor, whole = Math.abs(value / major - Math.round(value / major)) < 1e-6, x = ruleX(v, rule, value).toFixed(1);
    d += `M${x} ${y}v${whole ? 11 : 6}`;
    if (whole) v.numbers.next({ x, y: y + 24, "text-anchor": "middle" }, value.toFixed(digitsOf(major)));
  }
  v.numbers.end();
  put(v.ticks, { d });
  paintNotches(v, rule, y);
}

// notchesOf puts strips of the same size at one notch.
function notchesOf(rule) {
  const by = new Map();
  for (const n of rule.notches || []) by.set(n.at, by.has(n.at) ? by.get(n.at) + ", " + n.words : n.words);
  return [...by].map(([at, words]) => ({ at, words }));
}

function paintNotches(v, rule, y) {
  v.notches.start();
  for (const n of notchesOf(rule)) {
    if (n.at < rule.from || n.at > rule.to) continue;
    v.notches.next({ d: `M${ruleX(v, rule, n.at)} ${y}l4.5 8h-9z` }, `${n.words}: ${withUnit(rule, n.at)}`);
  }
  v.notches.end();
}

// ruling chooses the ticks: steps of the rule where they can be told apart.
function ruling(step, px) {
  let major = round125(46 / px);
  const decimal = Math.abs(Math.log10(round125(step)) - Math.log10(step)) < 1e-6;
  if (!decimal) major = Math.max(1, major); // clicks: numbers at whole turns
  if (step * px >= 4) return { minor: step, major: Math.max(major, step) };
  const parts = [10, 5, 2].find(n => major / n * px >= 4 && major / n >= step) || 1;
  return { minor: major / parts, major };
}

// paintHandles moves the handles and the number boxes; it does not wait for an answer.
function paintHandles(t) {
  if (t !== page.shown) return;
  for (const [key, v] of t.views) {
    const rule = t.rules.get(key), value = t.values[key];
    v.handle.style.transform = `translateX(${ruleX(v, rule, clamp(value, rule.from, rule.to))}px)`;
    if (document.activeElement !== v.box) fillBox(v, rule, value);
    put(v.handle, { "aria-valuemin": rule.from, "aria-valuemax": rule.to, "aria-valuenow": +value.toFixed(6), "aria-valuetext": valueWords(t, rule, value) });
    say(v.says, aside(t, rule));
  }
  byId("even").checked = t.even;
  for (const radio of document.getElementsByName("hold")) radio.checked = radio.value === t.hold;
}

function fillBox(v, rule, value) {
  if (v.box.value !== fixed(rule, value)) v.box.value = fixed(rule, value);
  if (v.box.getAttribute("aria-invalid") !== "false") v.box.setAttribute("aria-invalid", "false");
}

// valueWords is a value as it is spoken: with its unit, the verdict there, and the strip.
function valueWords(t, rule, value) {
  const strip = (rule.notches || []).filter(n => Math.abs(n.at - value) < 1e-6).map(n => n.words);
  return [withUnit(rule, value), verdictAt(t, rule, value), strip.length ? "strip " + strip.join(", ") : ""].filter(Boolean).join(", ");
}

// trackWords tells the sweep and the notches of a rule to those who do not see them.
function trackWords(t, rule) {
  const spans = (t.tracks[rule.key] || []).map(s => `${verdictWords[s.verdict] || "cannot be built"} to ${withUnit(rule, s.to)}`);
  const strips = notchesOf(rule).map(n => `${n.words} at ${withUnit(rule, n.at)}`);
  return [spans.length ? capital(spans.join(", ")) + "." : "", strips.length ? `Strips of the list: ${strips.join(", ")}.` : ""].join(" ").trim();
}

function verdictAt(t, rule, value) {
  const closed = (rule.closed || []).find(c => value > c.from && value <= c.to);
  if (closed) return closed.words;
  const s = (t.tracks[rule.key] || []).find(s => value >= s.from - 1e-9 && value <= s.to + 1e-9);
  if (!s) return "";
  return verdictWords[s.verdict] || "cannot be built" + (s.why ? ": " + s.why : "");
}

// aside is what stands beside a rule: fill of the barrel, the most even set-up.
function aside(t, rule) {
  const fill = t.answer.barrel?.fill;
  if (isLength(rule.key) && finite(fill)) return `fills ${(100 * fill).toFixed(0)} % of the barrel` + (t.hold === "fill" ? ", kept" : "");
  if (isSetUp(rule.key) && t.answer.even_words) return t.answer.even_words + (t.even ? ", followed" : "");
  return "";
}

// ---- the hand on a rule

function hear(v) {
  const { track, handle, box } = v;
  track.addEventListener("pointerdown", e => grab(v, e));
  // Raw moves come before the frame is made ready: the answer can be in it.
  for (const kind of ["onpointerrawupdate" in window ? "pointerrawupdate" : "pointermove", "pointermove"]) {
    track.addEventListener(kind, e => drag(v, e));
  }
  track.addEventListener("pointerup", e => { drag(v, e, true); v.grip = null; });
  track.addEventListener("pointercancel", () => { v.grip = null; });
  handle.addEventListener("keydown", e => ruleByKey(v, e));
  box.addEventListener("keydown", e => boxByKey(v, e));
  box.addEventListener("change", () => typed(v));
  box.addEventListener("input", () => { clearTimeout(v.typing); v.typing = setTimeout(() => typed(v, true), 700); });
  box.addEventListener("blur", () => { paintHandles(v.t); });
}

// grab takes hold anywhere on the track. A finger may only want to scroll: it moves the rule
// when it goes along it, or when it is lifted.
function grab(v, e) {
  if (e.button !== 0) return;
  const rule = v.t.rules.get(v.key), left = v.track.getBoundingClientRect().left;
  const off = e.clientX - left - ruleX(v, rule, v.t.values[v.key]);
  v.grip = { left, off: Math.abs(off) <= 11 ? off : 0 };
  v.track.setPointerCapture(e.pointerId);
  v.handle.focus({ preventScroll: true });
  if (e.pointerType !== "touch") {
    e.preventDefault();
    drag(v, e);
  }
}

function drag(v, e) {
  if (!v.grip) return;
  const since = now(), rule = v.t.rules.get(v.key);
  move(v.t, v.key, snap(rule, ruleValue(v, rule, e.clientX - v.grip.left - v.grip.off), e.shiftKey), since);
}

function ruleByKey(v, e) {
  const since = now(), rule = v.t.rules.get(v.key), by = e.shiftKey ? 10 : 1;
  const steps = { ArrowRight: by, ArrowUp: by, ArrowLeft: -by, ArrowDown: -by, PageUp: 10, PageDown: -10 }[e.key];
  const ends = { Home: rule.from, End: rule.to };
  if (steps === undefined && ends[e.key] === undefined || e.ctrlKey || e.metaKey) return;
  e.preventDefault();
  move(v.t, v.key, ends[e.key] ?? stepped(rule, v.t.values[v.key], steps, e.altKey), since, v.key);
}

function boxByKey(v, e) {
  const rule = v.t.rules.get(v.key), by = { ArrowUp: 1, ArrowDown: -1 }[e.key];
  if (e.key === "Escape") fillBox(v, rule, v.t.values[v.key]);
  if (!by) return;
  e.preventDefault();
  move(v.t, v.key, stepped(rule, v.t.values[v.key], by * (e.shiftKey ? 10 : 1)), now(), v.key);
  fillBox(v, rule, v.t.values[v.key]);
}

// typed has the program read what was typed: it knows units. What is still being typed is
// taken once it is whole, and not found fault with.
async function typed(v, still) {
  clearTimeout(v.typing);
  const text = v.box.value.trim(), rule = v.t.rules.get(v.key);
  if (text === fixed(rule, v.t.values[v.key])) return;
  try {
    const told = await post("check", { train: v.t.name, key: v.key, text });
    if (told.fault && still) return;
    if (told.fault) throw new Error(told.fault);
    tell("");
    move(v.t, v.key, told.value);
    if (!still) fillBox(v, rule, told.value);
  } catch (e) {
    if (document.activeElement === v.box) v.box.setAttribute("aria-invalid", "true");
    refused(v.t, e);
  }
}

// ---- which rules are out

function showRules(t) {
  byId("ruled").replaceChildren(...[...t.rules.keys()].map(key => viewOf(t, key).root));
  for (const v of t.views.values()) {
    if (v.track.isConnected && v.w !== v.track.clientWidth) sizeRule(v);
  }
  fillOther(t);
}

function sizeRule(v) {
  v.w = v.track.clientWidth;
  put(v.svg, { viewBox: `0 0 ${v.w} ${band.h}`, width: v.w, height: band.h });
}

// fillOther lists the inputs that are not out yet.
function fillOther(t) {
  const select = byId("other");
  const left = (t.train.inputs || []).filter(i => !t.rules.has(i.key));
  select.replaceChildren(select.options[0], ...left.map(i => element(null, "option", { value: i.key }, i.words)));
  select.value = "";
  show(select.parentElement, left.length > 0);
}

function takeOut(key) {
  if (!key) return;
  page.shown.extra.push(key);
  wire.whole = true;
  pump();
}

function putAway(t, key) {
  t.rules.delete(key);
  t.views.delete(key);
  delete t.tracks[key];
  delete t.values[key];
  delete t.foundValues[key];
  delete t.set[key];
  showRules(t);
  byId("other").focus();
  changedByHand(t, null);
}

// ---- strips of the list

function showStock(t) {
  const list = t.train.stock || [], none = t.train.no_stock || "";
  show(byId("list"), list.length > 0 || !!none);
  show(byId("stock"), list.length > 0);
  say(byId("no-stock"), list.length ? "" : none);
  byId("stock").replaceChildren(...list.map(s => stockItem(t, s)));
}

function stockItem(t, s) {
  const item = element(null, "li");
  const button = element(item, "button", { type: "button", class: s.fits === false ? "misfit" : "", "aria-pressed": "false" });
  element(button, "b", {}, s.label);
  element(button, "span", {}, " " + (s.size || "") + " ");
  element(button, "small", {}, s.says || "");
  if (s.done) element(button, "small", { class: "done" }, s.done);
  if (s.fits === false) button.setAttribute("aria-disabled", "true");
  button.addEventListener("click", () => pick(t, s));
  button.strip = s;
  return item;
}

// pick tries a strip of the list: it has its own length.
function pick(t, s) {
  if (s.fits === false) return tell(`${s.label}: ${s.says}.`, true);
  if (Object.keys(s.set || {}).some(isSetUp)) t.even = false;
  Object.assign(t, { hold: "length", fill: null });
  Object.assign(t.set, s.set);
  for (const [key, v] of Object.entries(s.set || {})) if (t.rules.has(key)) t.values[key] = v;
  changedByHand(t, null);
}

function paintStock(t) {
  for (const button of byId("stock").querySelectorAll("button")) {
    const set = Object.entries(button.strip.set || {});
    const out = set.length > 0 && set.every(([key, v]) => Math.abs((t.set[key] ?? t.values[key] ?? t.foundValues[key]) - v) < 1e-6);
    put(button, { "aria-pressed": String(out) });
  }
}

// ---- what changed, and what to do with it

// changes are the inputs that are not as found, in words.
function changes(t) {
  const list = [];
  for (const [key, rule] of t.rules) {
    const was = fixed(rule, t.foundValues[key]), is = fixed(rule, t.values[key]);
    if (was !== is) list.push(`${rule.words} ${was} → ${is} ${rule.unit || ""}`.trim());
  }
  return list;
}

function paintChanged(t) {
  const list = changes(t);
  say(byId("changed"), list.length ? capital(list.join("; ")) + "." : "Nothing: this is the clock as it was found.");
}

function paintButtons(t) {
  const here = snapshot(t);
  // Not "disabled": the focus would be lost with the last step.
  const off = (id, is) => put(byId(id), { "aria-disabled": String(is) });
  off("undo", t.at === 0 && here === t.past[0]);
  off("redo", t.at >= t.past.length - 1);
  off("back", isAsFound(t));
  put(byId("hold"), { "aria-pressed": String(!!t.held) });
  say(byId("hold"), t.held ? "let the held one go" : "hold this one");
}

function paintRest(t) {
  paintStock(t);
  t.caution = t.answer.run?.cautions?.[0] || t.caution || page.start.cautions?.[0] || "";
  say(byId("caution"), t.caution);
  show(byId("order-line"), !!t.order);
  say(byId("order-line"), t.order ? "To order: " + t.order : "");
}

// holdThis keeps the present trial beside, or lets it go.
function holdThis() {
  const t = page.shown;
  t.held = t.held ? null : { answer: t.answer, words: changes(t).join("; ") || "as found" };
  tell(t.held ? "This trial is held beside." : "The held trial is let go.");
  settle(t);
  soon(null);
}

async function keep(e) {
  e.preventDefault();
  const name = byId("keep-name");
  try {
    const told = await post("keep", { ...question(page.shown), tracks: [], draws: 0, name: name.value.trim() });
    put(name, { "aria-invalid": String(!!told.fault) });
    tell(told.fault || told.says || "Written: " + told.kept, !!told.fault);
  } catch (err) {
    put(name, { "aria-invalid": "true" });
    refused(page.shown, err);
  }
}

// fetchOrder has the line to order by; it is also printed on the card, unless the trial has
// become another meanwhile.
async function fetchOrder(t) {
  const picked = byId("stock").querySelector("[aria-pressed=true]")?.strip;
  if (picked?.order) { // a strip of the list goes by its name, and what is done to it
    t.order = picked.order;
    paintRest(t);
    return t.order;
  }
  const was = snapshot(t);
  const told = await post("order", { ...question(t), tracks: [], draws: 0 });
  if (told.fault) throw new Error(told.fault);
  if (snapshot(t) === was) t.order = told.order || "";
  paintRest(t);
  return told.order;
}

const askOrder = t => t.answer.fault ? null : fetchOrder(t).catch(() => {});

async function copyOrder() {
  try {
    const line = await fetchOrder(page.shown);
    await copy(line);
  } catch (e) {
    refused(page.shown, e);
  }
}

// copy puts a line on the clipboard; where that is not allowed the line is there, selected.
async function copy(line) {
  show(byId("line-label"), false);
  try {
    await navigator.clipboard.writeText(line);
    tell("Copied: " + line);
  } catch {
    show(byId("line-label"), true);
    byId("line").value = line;
    byId("line").focus();
    byId("line").select();
    tell("The clipboard is closed to this page: copy the line that is marked.");
  }
}

async function printCard() {
  if (!page.shown.order) await askOrder(page.shown);
  window.print();
}

// The card is narrower than the screen: the drawings are made for it.
const card = { w: 490, h: 210 };

function forCard() {
  sizePlot(card.w, card.h);
  bar.w = 230;
  paint();
}

// ---- the blows of a striking train

const sound = { on: false, desk: null, timer: 0 };

const blowNow = t => {
  const list = t.answer.blows || [];
  return (finite(t.turn) ? nearest(list, t.turn) : list[0]) || null;
};

function paintBlows(t) {
  const b = blowNow(t);
  show(byId("hear"), t.train.kind === "striking" || !!b);
  say(byId("blows-words"), b && finite(b[1]) ? `${three(b[1])} s apart at turn ${round(b[0])}` : "no blows in this trial");
}

function hearBlows() {
  sound.on = !sound.on;
  put(byId("blows"), { "aria-pressed": String(sound.on) });
  clearTimeout(sound.timer);
  if (!sound.on) return;
  sound.desk = sound.desk || new AudioContext();
  sound.desk.resume();
  blow();
}

// blow strikes, and again after the time that the chosen turn tells then.
function blow() {
  const b = blowNow(page.shown);
  if (!sound.on) return;
  if (b && finite(b[1])) click(sound.desk);
  sound.timer = setTimeout(blow, 1000 * clamp(b?.[1] || 1, 0.05, 30));
}

// click is a short, dull stroke.
function click(desk) {
  const tone = desk.createOscillator(), loud = desk.createGain(), at = desk.currentTime;
  tone.type = "triangle";
  tone.frequency.setValueAtTime(880, at);
  tone.frequency.exponentialRampToValueAtTime(330, at + 0.05);
  loud.gain.setValueAtTime(0.4, at);
  loud.gain.exponentialRampToValueAtTime(0.001, at + 0.12);
  tone.connect(loud).connect(desk.destination);
  tone.start(at);
  tone.stop(at + 0.13);
}

// ---- several trains

function showTrains() {
  const row = byId("trains");
  show(row, page.trials.length > 1);
  for (const t of page.trials) {
    const button = element(row, "button", { type: "button", "data-train": t.name, "aria-pressed": "false" }, t.name);
    button.addEventListener("click", () => showTrain(t));
  }
}

function showTrain(t) {
  if (page.shown && page.shown !== t) record(page.shown);
  page.shown = t;
  clearTimeout(wire.rest);
  clearTimeout(wire.pause);
  wire.busy?.stop.abort();
  Object.assign(wire, { busy: null, since: null, whole: true, resting: false });
  for (const button of byId("trains").children) put(button, { "aria-pressed": String(button.dataset.train === t.name) });
  if (sound.on && t.train.kind !== "striking") hearBlows();
  if (!t.scale) settle(t);
  showRules(t);
  showStock(t);
  tell("");
  soon(null);
  pump();
}

// ---- the beginning

// measure fits all drawings to their places.
function measure() {
  const box = byId("plot");
  sizePlot(box.clientWidth, box.clientHeight);
  bar.w = byId("spare").clientWidth;
  for (const v of page.shown?.views.values() || []) if (v.track.isConnected) sizeRule(v);
  soon(null);
}

function listen() {
  const on = (id, kind, does) => byId(id).addEventListener(kind, does);
  on("plot", "keydown", turnByKey);
  on("plot", "pointermove", turnByPointer);
  on("plot", "pointerdown", turnByPointer);
  on("undo", "click", undo);
  on("redo", "click", redo);
  on("back", "click", putBack);
  on("hold", "click", holdThis);
  on("keeping", "submit", keep);
  on("order", "click", copyOrder);
  on("print", "click", printCard);
  on("blows", "click", hearBlows);
  on("other", "change", e => takeOut(e.target.value));
  on("even", "change", e => follow(page.shown, e.target.checked));
  for (const radio of document.getElementsByName("hold")) radio.addEventListener("change", () => keepWhat(page.shown, radio.value));
  document.addEventListener("keydown", undoByKey);
  window.addEventListener("beforeprint", forCard);
  window.addEventListener("afterprint", measure);
  const seen = new ResizeObserver(measure);
  for (const id of ["plot", "ruled", "spare"]) seen.observe(byId(id));
}

function undoByKey(e) {
  if (!(e.ctrlKey || e.metaKey) || e.target.tagName === "INPUT" && e.target.type === "text") return;
  const does = { z: e.shiftKey ? redo : undo, y: redo }[e.key.toLowerCase()];
  if (!does) return;
  e.preventDefault();
  does();
}

// ask has what the program tells unasked.
async function ask(path) {
  return read(await fetch(path + "?key=" + encodeURIComponent(access)).catch(() => { throw new Error(ended); }));
}

// takeList puts the strips of the dealer's list beside their trains: judging them takes
// longer than anybody wants to look at an empty page.
async function takeList() {
  const list = await ask("list").catch(() => ({}));
  for (const t of page.trials) Object.assign(t.train, list[t.name]);
  showStock(page.shown);
  paintStock(page.shown);
  measure();
}

async function begin() {
  makePlot();
  makeBarrel();
  makeSpare();
  try {
    page.start = await ask("start");
  } catch (e) {
    return say(byId("sentence"), e.message);
  }
  page.trials = (page.start.trains || []).map(newTrial);
  if (page.start.listed) for (const t of page.trials) t.train.no_stock = "The strips of the list are being judged …";
  if (!page.trials.length) return say(byId("sentence"), "There is no train to try in this file.");
  if (page.start.title) say(byId("title"), page.start.title);
  byId("keep-name").value = (page.start.file || "clock").replace(/\.toml$/, "").replace(/.*[\\/]/, "") + "-tried.toml";
  listen();
  showTrains();
  showTrain(page.trials[0]);
  measure();
  if (page.start.listed) takeList();
}

begin();
