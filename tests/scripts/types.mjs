// npm run types: writes the interface's types from the schemas of the command table.
// `--check` writes nothing and fails if they differ.
import { existsSync, mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { isDeepStrictEqual } from 'node:util';
import { buildPrograms } from './lib/build.mjs';
import { Plain, ROOT, built, main, output, say } from './lib/run.mjs';

const FILE = path.join(ROOT, 'ui', 'src', 'lib', 'generated', 'commands.ts');

const BANNER = `/*
 * Generated from the schemas of the command table by \`npm run types\`. Don't edit.
 */
`;

await main(async () => {
  await buildPrograms();
  const table = JSON.parse(output(built('headless'), ['commands']) ?? 'null');
  if (table === null) throw new Plain('`headless commands` failed');
  const text = await write(table);
  if (process.argv.includes('--check')) {
    if (!existsSync(FILE) || readFileSync(FILE, 'utf8') !== text) {
      throw new Plain(`${path.relative(ROOT, FILE)} is out of date: run \`npm run types\``);
    }
    say(`The types of ${table.length} commands match their schemas.`);
    return;
  }
  mkdirSync(path.dirname(FILE), { recursive: true });
  writeFileSync(FILE, text);
  say(`Wrote ${path.relative(ROOT, FILE)}: ${table.length} commands.`);
});

async function write(table) {
  const { compile } = await import('json-schema-to-typescript');
  const types = {};
  const commands = {};
  for (const command of table) {
    commands[command.name] = {
      type: 'object',
      description: command.summary,
      required: ['args', 'answer'],
      properties: {
        args: share(command.args_schema, types),
        answer: share(command.answer_schema, types),
      },
    };
  }
  const schema = {
    title: 'Commands',
    description: 'Each command: what it takes and what it answers.',
    type: 'object',
    required: Object.keys(commands),
    properties: commands,
    $defs: types,
  };
  return compile(clean(schema), 'Commands', {
    bannerComment: BANNER,
    additionalProperties: false,
    // A list stays a list: lengths are the core's to check.
    ignoreMinAndMaxItems: true,
    style: { singleQuote: true, printWidth: 100 },
  });
}

/** Moves a schema and its definitions into the shared table; answers with what stands for it. */
function share(schema, types) {
  if (typeof schema !== 'object') return schema;
  const { $schema: _, $defs = {}, ...own } = schema;
  for (const [name, definition] of Object.entries($defs)) add(name, definition, types);
  // A bare object takes nothing; naming each one would say nothing.
  if (!own.title) return own;
  add(own.title, own, types);
  return { $ref: `#/$defs/${own.title}` };
}

function add(name, definition, types) {
  const { title: _, ...body } = definition;
  if (types[name] && !isDeepStrictEqual(types[name], body)) {
    throw new Plain(`two different types of the core are called ${name} in their schemas`);
  }
  types[name] = body;
}

/** What the generator understands: it knows fixed tuples by their older spelling only. */
function clean(value) {
  if (Array.isArray(value)) return value.map(clean);
  if (typeof value !== 'object' || value === null) return value;
  const { prefixItems, ...rest } = value;
  if (rest.$ref !== undefined) return reference(rest);
  const result = Object.fromEntries(Object.entries(rest).map(([key, item]) => [key, clean(item)]));
  if (prefixItems) {
    return { ...result, items: clean(prefixItems), additionalItems: false };
  }
  return result;
}

/**
 * A reference keeps its type's name only when it stands alone: words beside it would make the
 * generator write the type out again under another name. What adds properties (the tag of a
 * variant) is joined to it.
 */
function reference({ $ref, description: _, default: __, ...more }) {
  return Object.keys(more).length === 0 ? { $ref } : { allOf: [{ $ref }, clean(more)] };
}
