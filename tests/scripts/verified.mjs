// npm run verified: makes the table of what the physics and the metrology were checked against,
// tests/reference/VERIFIED.md, from what the tests wrote down while they ran.
// `--fresh` forgets what was written; `--check` fails if the table says other points than were run.
import { existsSync, readFileSync, readdirSync, rmSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { CARGO, Plain, ROOT, TARGET, main, must, say } from './lib/run.mjs';

const FOLDER = path.join(TARGET, 'verified');
const FILE = path.join(ROOT, 'tests', 'reference', 'VERIFIED.md');

const AREAS = {
  a: 'Standard atmosphere',
  b: 'Units and vacuum readings',
  c: 'Gaps and orifices in oil, flow force',
  d: 'Air: nozzles, ISO 6358, leaks',
  e: 'Oil: viscosity, density',
  f: 'Springs',
  g: 'Limits and fits, ISO 286',
  h: 'Thermal expansion',
  i: 'Uncertainty and decisions',
  j: 'Stiff differential equations',
  k: 'Clutches',
  l: 'Coils',
  m: 'Entrained air',
  n: 'Reliefs',
  o: 'Gauges',
  p: 'Openings of a spool',
  regulator: 'Reducing regulator, static',
  dynamics: 'Reducing regulator, in time',
  main_regulator: 'Main regulator of the bypass kind',
  circuit: 'Line and feed as one circuit',
};

/** The most of the work must rest on these, and not on ourselves. */
const LEAST = { points: 250, areas: 14, sources: 8 };

await main(async () => {
  if (process.argv.includes('--fresh')) {
    rmSync(FOLDER, { recursive: true, force: true });
    return;
  }
  if (!process.argv.includes('--check')) {
    rmSync(FOLDER, { recursive: true, force: true });
    await must('cargo', ['test', '--quiet', '-p', 'physics', '-p', 'metrology'], { cwd: CARGO });
  }
  const checks = read();
  const { text, outside, areas, sources } = table(checks);
  if (outside < LEAST.points || areas < LEAST.areas || sources < LEAST.sources) {
    throw new Plain(
      `${outside} points, ${areas} areas, ${sources} sources from outside: too few (${JSON.stringify(LEAST)})`,
    );
  }
  if (process.argv.includes('--check')) {
    if (!existsSync(FILE) || steady(readFileSync(FILE, 'utf8')) !== steady(text)) {
      throw new Plain(`${path.relative(ROOT, FILE)} is out of date: run \`npm run verified\``);
    }
    say(`The table of what was checked is true: ${outside} points from outside.`);
    return;
  }
  writeFileSync(FILE, text);
  say(`Wrote ${path.relative(ROOT, FILE)}: ${outside} points from outside.`);
});

/** Each check once; a second run of the same test says the same. */
function read() {
  const checks = new Map();
  const files = existsSync(FOLDER) ? readdirSync(FOLDER) : [];
  for (const file of files.sort()) {
    for (const line of readFileSync(path.join(FOLDER, file), 'utf8').split('\n')) {
      if (line === '') continue;
      const check = JSON.parse(line);
      // Tests of `reference` itself leave none of the areas.
      if (!(check.area in AREAS)) throw new Plain(`no name for the area ${check.area}`);
      const before = checks.get(check.id);
      // One point checked in two ways counts once, with the larger deviation.
      if (!before || before.deviation < check.deviation) checks.set(check.id, check);
    }
  }
  if (checks.size === 0) throw new Plain('No check was written down: run the tests first.');
  return [...checks.values()];
}

function table(checks) {
  const rows = new Map();
  for (const check of checks) {
    const key = [check.area, check.quantity, check.source, check.computed_by].join('\n');
    const row = rows.get(key) ?? { ...check, count: 0, deviation: 0, allowed: 0, spans: new Map() };
    row.count += 1;
    row.deviation = Math.max(row.deviation, check.deviation);
    row.allowed = Math.max(row.allowed, check.allowed);
    for (const [name, [value, unit]] of Object.entries(check.inputs)) {
      const [low, high] = row.spans.get(name) ?? [Infinity, -Infinity];
      row.spans.set(name, [Math.min(low, value), Math.max(high, value), unit]);
    }
    rows.set(key, row);
  }
  const order = Object.keys(AREAS);
  const sorted = [...rows.values()].sort(
    (a, b) => order.indexOf(a.area) - order.indexOf(b.area) || (a.quantity < b.quantity ? -1 : 1),
  );
  const from = (evidence) => checks.filter((check) => evidence.includes(check.evidence));
  const outside = from(['published', 'library']);
  const same = from(['same_equations']);
  const areas = new Set(outside.map(({ area }) => area));
  const sources = new Set(outside.map(({ source }) => standardOf(source)));
  const packages = new Set(outside.map((check) => check.computed_by).filter((name) => /\d/.test(name)));
  const head = [
    '# What was checked against the world outside',
    '',
    'Made by `npm run verified` from what the tests of `physics` and `metrology` wrote down while they ran; `npm test` fails when it is no longer true.',
    'A tolerance is what the source deserves (its last digit, its rounding, the spread that its authors give), never what our result needed.',
    '',
    `**${outside.length} points from outside, over ${areas.size} areas, of ${sources.size} standards, handbooks and open references, computed by ${packages.size} general-purpose libraries or printed by the source.** None was made by this project's own code.`,
    `Besides these, ${same.length} cases in which our own equations, written a second time, were solved by another program: they check the solving, not the equations.`,
    '',
    'Where sources disagree, and what a published package gets wrong, stands in [`README.md`](README.md).',
    '',
  ];
  const body = [];
  let area;
  for (const row of sorted) {
    if (row.area !== area) {
      area = row.area;
      body.push(`\n## ${AREAS[area]}\n`);
      body.push('| Quantity | Source | Computed by | Range | Points | Largest deviation | Allowed |');
      body.push('|---|---|---|---|---:|---:|---:|');
    }
    body.push(
      `| ${[
        cell(row.quantity),
        cell(row.source),
        cell(row.computed_by) + (row.evidence === 'same_equations' ? ' (same equations)' : ''),
        cell(spans(row.spans)),
        row.count,
        short(row.deviation),
        short(row.allowed),
      ].join(' | ')} |`,
    );
  }
  return {
    text: `${[...head, ...body].join('\n')}\n`,
    outside: outside.length,
    areas: areas.size,
    sources: sources.size,
  };
}

/** The work that a source names, without the place in it. */
function standardOf(source) {
  return source.split(/[;,:(=]| ch\. | eq\. | Table | App\. /)[0].trim();
}

function cell(text) {
  return text.replaceAll('|', '\\|').replace(/\s+/g, ' ');
}

function short(number) {
  return number === 0 ? '0' : number.toExponential(0);
}

function plain(number) {
  return String(Number(number.toPrecision(4)));
}

/** What the inputs ran over; those that stood still are left out when others moved. */
function spans(found) {
  const all = [...found].map(([name, [low, high, unit]]) => ({ name, low, high, unit }));
  const moved = all.filter(({ low, high }) => low !== high);
  return (moved.length > 0 ? moved : all)
    .slice(0, 5)
    .map(({ name, low, high, unit }) => {
      const of = unit && unit !== '-' ? ` ${unit}` : '';
      return low === high ? `${name} ${plain(low)}${of}` : `${name} ${plain(low)} to ${plain(high)}${of}`;
    })
    .join('; ');
}

/** The table without its deviations, whose last bits may differ from machine to machine. */
function steady(text) {
  return text
    .split('\n')
    .map((line) => line.replace(/\| [^|]+ \| ([^|]+) \|$/, '| $1 |'))
    .join('\n');
}
