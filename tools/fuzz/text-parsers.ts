/** Readers of quantities, tables and bench files. */
import { readFileSync } from 'node:fs';
import { InputFault } from '../../src/cli/command.ts';
import { stationsOf } from '../../src/cli/stations-file.ts';
import { instrumentAddress } from '../../src/instruments/scpi/link.ts';
import { typedReading } from '../../src/instruments/typed/typed-reading.ts';
import { parseQuantity, type QuantityKind } from '../../src/record/quantity.ts';
import { parseSweep } from '../../src/record/sweep-file.ts';
import { parseTable } from '../../src/record/table.ts';
import { parseTouchstone } from '../../src/record/touchstone.ts';
import { type FuzzedParser, holds, refusal, textOf } from './parser.ts';

const kinds: readonly QuantityKind[] = [
	'frequency',
	'capacitance',
	'inductance',
	'resistance',
	'voltage',
	'power',
	'length',
	'time',
	'level',
];
const units = [
	'kc',
	'Mc',
	'c',
	'kHz',
	'MHz',
	'm',
	'mmf',
	'mmfd',
	'uuF',
	'mfd',
	'pF',
	'uH',
	'mH',
	'ohms',
	'k',
	'4k7',
	'2M2',
	'V',
	'mV',
	'uV',
	'dB',
	'dBV',
	'W',
	'mm',
	's',
	'min',
	'kc/s',
];

const allFinite = (values: readonly number[]): boolean => values.every(Number.isFinite);

const quantity: FuzzedParser = {
	name: 'units',
	form: 'bytes',
	begins: [
		'455 kc',
		'1,400 kc',
		'1.4Mc',
		'365mmf',
		'0.05 mfd',
		'240uH',
		'4k7',
		'2M2',
		'200 m',
		'3.2 ohms',
		'-12.4dB',
		'1.5 W',
		'0.3mm',
		'0.1 s',
		'2.4 V',
	],
	words: units,
	judge(input) {
		const text = textOf(input);
		const outcomes = kinds.map((kind) => {
			const read = parseQuantity(kind, text);
			if (!read.ok) return refusal(read.words);
			holds(Number.isFinite(read.value), `${kind} of ${JSON.stringify(text)} is ${read.value}`);
			const again = parseQuantity(kind, ` ${text} `);
			holds(again.ok && again.value === read.value, `${kind} of ${JSON.stringify(text)} changes with spaces around it`);
			return kind;
		});
		return [...new Set(outcomes)].sort().join('|').slice(0, 120);
	},
};

const typed: FuzzedParser = {
	name: 'readings',
	form: 'bytes',
	begins: ['2.4 V', '-3 dB', '180 mV', '1,200 uV', '-12.40 dBV', '0 V', 'a bit louder'],
	words: units,
	judge(input) {
		const text = textOf(input);
		const read = typedReading(text, 'tone', 0);
		if (!read.ok) return refusal(read.words);
		const { value, uncertainty } = read.value.levelDb ?? { value: Number.NaN, uncertainty: null };
		holds(
			Number.isFinite(value) && uncertainty !== null && uncertainty > 0 && Number.isFinite(uncertainty),
			`${JSON.stringify(text)} reads ${value} +- ${uncertainty}`,
		);
		return read.value.reference;
	},
};

const table: FuzzedParser = {
	name: 'csv',
	form: 'bytes',
	begins: [
		...['if-curve.csv', 'tables/dial-marks.csv', 'tables/warm-up.csv', 'tables/avc-steps.csv'].map((file) =>
			readFileSync(`examples/${file}`),
		),
		'frequency kc;level V\n455,0;1,2\n460,0;0,9',
	],
	words: ['kHz,dB', 'dial kc', 'level V', 'output [mV]', 'frequency (Mc)', 'uncertainty dB', ';', '\t', '# note'],
	judge(input) {
		const text = textOf(input);
		const read = parseTable(text);
		const sweep = parseSweep(text, 'fuzz');
		if (sweep.ok) {
			const hertz = sweep.value.points.map(({ frequencyHz }) => frequencyHz);
			holds(
				allFinite(
					sweep.value.points.flatMap(({ frequencyHz, levelDb, uncertaintyDb }) => [
						frequencyHz,
						levelDb,
						uncertaintyDb ?? 0,
					]),
				),
				'a sweep with a value that is not finite',
			);
			holds(
				hertz.length >= 5 && hertz.every((value, k) => k === 0 || value >= (hertz[k - 1] ?? 0)),
				'a sweep that is too short or not in order',
			);
		}
		if (!read.ok) return refusal(read.words);
		for (const { values, digits, line } of read.value.rows) {
			holds(
				values.length === read.value.columns.length && digits.length === values.length,
				`line ${line} has another number of cells than the header`,
			);
			holds(allFinite(values), `line ${line} holds what is not finite`);
		}
		return `${read.value.columns.map(({ kind }) => kind).join()} ${sweep.ok ? 'sweep' : refusal(sweep.words)}`;
	},
};

const touchstone: FuzzedParser = {
	name: 'touchstone',
	form: 'bytes',
	begins: [
		'! two ports\n# kHz S DB R 50\n440 -20 0 -30 0 -30 0 -20 0\n455 -10 0 -3 0 -3 0 -10 0\n470 -20 0 -30 0 -30 0 -20 0\n',
		'# MHz S RI R 50\n0.44 0.1 0.2\n0.455 0.5 0.1\n0.47 0.1 -0.2\n',
		'[Version] 2.0\n# Hz S MA R 50\n[Number of Ports] 2\n[Two-Port Data Order] 12_21\n[Network Data]\n440000 0.1 0 0.1 0 0.1 0 0.1 0\n455000 0.5 0 0.7 0 0.7 0 0.5 0\n[Noise Data]\n1 2 3\n[End]\n',
	],
	words: [
		'# kHz S RI R 50',
		'[Version] 2.0',
		'[Number of Ports] 2',
		'[Matrix Format] Full',
		'[End]',
		'!',
		'MA',
		'DB',
		'RI',
		'GHz',
		'1e-300',
	],
	judge(input) {
		const text = textOf(input);
		const read = parseTouchstone(text);
		if (!read.ok) return refusal(read.words);
		const { frequenciesHz, levelsDb, portCount, parameter } = read.value;
		holds(
			frequenciesHz.length === levelsDb.length && frequenciesHz.length > 0,
			'frequencies and levels are not as many',
		);
		holds(allFinite(frequenciesHz) && allFinite(levelsDb), 'a trace with a value that is not finite');
		holds(
			frequenciesHz.every((value, k) => value >= 0 && (k === 0 || value > (frequenciesHz[k - 1] ?? 0))),
			'frequencies that do not rise',
		);
		return `${portCount} ${parameter}`;
	},
};

const stations: FuzzedParser = {
	name: 'stations',
	form: 'bytes',
	begins: [readFileSync('examples/tables/stations.csv'), '600 kc\n1.01 Mc\n'],
	words: ['name,kHz', 'station (Mc)', 'kc', '600', 'one'],
	judge(input) {
		try {
			const read = stationsOf(textOf(input), 'stations.csv');
			holds(allFinite(read) && read.length > 0 && read.every((hertz) => hertz > 0), 'stations that are none');
			return 'stations';
		} catch (error) {
			if (error instanceof InputFault) return refusal(error.message);
			throw error;
		}
	},
};

const address: FuzzedParser = {
	name: 'addresses',
	form: 'bytes',
	begins: ['192.168.1.20', '192.168.1.20:5025', '[::1]:5025', 'serial:/dev/ttyUSB0', 'bench-meter.local:5025'],
	words: ['serial:', 'localhost', ':0', ':65536', '[::]', '..', 'COM3'],
	judge(input) {
		const read = instrumentAddress(textOf(input), null);
		if (!read.ok) return refusal(read.words);
		if (read.value.kind === 'serial') return 'serial';
		holds(
			read.value.port > 0 && read.value.port < 65_536 && !/\s/.test(read.value.host),
			`a place at "${read.value.host}" port ${read.value.port}`,
		);
		return 'network';
	},
};

export const textParsers: readonly FuzzedParser[] = [quantity, typed, table, touchstone, stations, address];
