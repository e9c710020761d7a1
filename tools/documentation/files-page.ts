import { readFileSync } from 'node:fs';
import * as z from 'zod/mini';
import { instrumentJsonSchema } from '../../src/record/instrument-description.ts';
import { runEntry } from '../../src/record/run.ts';
import { setCardJsonSchema } from '../../src/record/set-card.ts';
import { labelOf } from '../../src/web/state/card-labels.ts';
import { type JsonSchema, schemaTables } from './schema-tables.ts';

/** Tables that commands read, each with a file of the examples and what it is for. */
const tables = [
	[
		'examples/if-curve.csv',
		'response',
		'an IF curve: one column of frequency, one of level in dB, V or W, and optionally its uncertainty in dB',
	],
	['examples/tables/dial-marks.csv', 'dial', 'where the pointer stood, and what came in'],
	['examples/tables/stations.csv', 'whistles', 'stations that can be heard; other columns are names'],
	[
		'examples/tables/generator-dial.csv',
		'generator dial',
		'marks of a generator, and what a counter or beats with stations say',
	],
	['examples/tables/attenuator-steps.csv', 'generator steps', 'places of an attenuator, and what the meter read'],
	['examples/tables/warm-up.csv', 'generator drift', 'frequency against time after switching on'],
	['examples/tables/avc-steps.csv', 'avc', 'known levels of the generator, and what the meter read'],
	[
		'examples/tables/readings.txt',
		'tests --readings',
		'typed readings of the standard tests, one a line: when, which reading, what it was',
	],
] as const;

function tableSection(): string {
	return tables
		.map(([path, command, what]) => {
			const lines = readFileSync(path, 'utf8').trimEnd().split('\n');
			const shown = lines.slice(0, 4);
			return `\`${command}\` reads ${what}. [${path}](../${path}):\n\n\`\`\`\n${shown.join('\n')}${lines.length > shown.length ? '\n...' : ''}\n\`\`\``;
		})
		.join('\n\n');
}

function happeningsSection(): string {
	const entry = z.toJSONSchema(runEntry, { io: 'input' }) as unknown as JsonSchema;
	const kinds = entry.properties?.what?.oneOf ?? entry.properties?.what?.anyOf ?? [];
	const rows = kinds.map(({ properties }) => {
		const fields = Object.keys(properties ?? {}).filter((key) => key !== 'kind');
		return `| \`${String(properties?.kind?.const)}\` | ${fields.map((key) => `\`${key}\``).join(', ')} |`;
	});
	return ['| kind | fields |', '| --- | --- |', ...rows].join('\n');
}

/** The reference of the files that the program reads and writes. */
export function filesPage(): string {
	return [
		'# Files',
		'',
		'Written by `npm run docs` from the schemas that the program checks with. A star marks what must be given; everything else may be left out. A file with a fault is refused whole, with the place and the reason.',
		'',
		'## Quantities',
		'',
		'In cards and on the command line a quantity is written with its unit, as the trade writes it: `455 kc`, `1.4 Mc`, `200 m` (wavelength), `365 mmf`, `0.05 mfd`, `240 uH`, `4k7`, `1.5 W`, `150 mm`. The words are kept as they were typed. A point stands before decimals, a comma between thousands.',
		'',
		'## Tables',
		'',
		'Text with a header that gives each column its unit: `kHz,dB`, `frequency kc;level V`, `output [V]`. Cells are parted by commas, semicolons or tabs; where they are not parted by commas, a comma may stand before decimals. Lines that begin with `#` or `!` are passed over.',
		'',
		tableSection(),
		'',
		'An IF curve may also be a Touchstone file of one or two ports, version 1 or 2; `--parameter` says which ratio is the curve.',
		'',
		'## Recordings',
		'',
		'WAV: integers of 8, 16, 24 or 32 bits or floats of 32 or 64, at 8 to 192 kHz.',
		'',
		'## Set card',
		'',
		'JSON, also as [set-card.schema.json](set-card.schema.json) for editors.',
		'',
		schemaTables(setCardJsonSchema() as JsonSchema, labelOf),
		'',
		'## Description of an instrument',
		'',
		'JSON, also as [instrument.schema.json](instrument.schema.json). [Connecting what you have](connecting.md) says how to write and try one.',
		'',
		schemaTables(instrumentJsonSchema() as JsonSchema, null),
		'',
		'## Export',
		'',
		'`export` writes one JSON object: `schema` is `"peakwright/export"`, `version` 1, `sets` a list with the `id` of each set, every version of its card (`cards`, each with `changedAtMs`) and every entry of its runs (`entries`). Times are milliseconds since 1970, UTC. An entry is never rewritten; a mistake is struck by a later one. Each has `id`, `run`, `order`, `atMs` and `what`, which is one of:',
		'',
		happeningsSection(),
		'',
	].join('\n');
}
