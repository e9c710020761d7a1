/** The drawings of the documentation, made by the program's own physics and its own hand. */
import { imageRejection, type TrimChoice, trimChoices } from '../../src/advice/dial/antenna-circuit.ts';
import { dialAnswer } from '../../src/advice/dial/dial-answer.ts';
import { dialSchools } from '../../src/advice/dial/dial-schools.ts';
import { kcWords } from '../../src/advice/dial/dial-words.ts';
import { trackingCurve } from '../../src/core/circuit/tracking-curve.ts';
import { type DialGround, DialModel, type DialState, soundState } from '../../src/core/estimate/dial-model.ts';
import { levelFunction } from '../../src/core/estimate/response-model.ts';
import { stripModel, stripPlaces } from '../../src/core/estimate/strip-model.ts';
import { type BenchSet, tuningAtMark, valuesAt } from '../../src/core/receiver/bench-set.ts';
import { tm517 } from '../../src/core/receiver/designs/tm-517.ts';
import { factoryTurns } from '../../src/core/receiver/factory.ts';
import { SteadyState } from '../../src/core/receiver/operating-point.ts';
import { standardTone } from '../../src/core/receiver/signal.ts';
import { bandChart } from '../../src/draw/band-chart.ts';
import { dialScale } from '../../src/draw/dial-scale.ts';
import { printed } from '../../src/draw/printed.ts';
import { type ChartLine, responseChart } from '../../src/draw/response-chart.ts';
import { avcChart } from '../../src/draw/test-charts.ts';

const ifHz = 455e3;
const broadcast = { lowHz: 540e3, highHz: 1600e3 };
const widthPx = 640;
const heightPx = 320;

const evenly = (from: number, to: number, count: number): readonly number[] =>
	Array.from({ length: count }, (_, k) => from + ((to - from) * k) / (count - 1));

/** Two alike cans, as the curve fit models them; tunings in hertz off the IF, coupling against critical. */
function twoCans(offHz: readonly [number, number], q: number, timesCritical: number): readonly ChartLine[] {
	const parameters = new Float64Array(stripPlaces.size);
	for (const [place, hertz] of [...offHz, ...offHz].entries()) parameters[stripPlaces.tuning + place] = hertz / ifHz;
	parameters.fill(Math.log(1 / (2 * q)), stripPlaces.halfWidth, stripPlaces.halfWidth + 4);
	// Critical coupling of two like circuits: k = 1 / Q.
	parameters.fill(Math.log(timesCritical / q), stripPlaces.coupling, stripPlaces.coupling + 2);
	const level = levelFunction(stripModel(), 0);
	const out = new Float64Array(stripPlaces.size + 1);
	return evenly(-20e3, 20e3, 161).map((hertz) => {
		level(parameters, 1 + hertz / ifHz, out);
		return { frequencyHz: ifHz + hertz, levelDb: out[0] as number, uncertaintyDb: 0 };
	});
}

function curves(
	lines: readonly [plain: readonly ChartLine[], dashed: readonly ChartLine[], grey: readonly ChartLine[]],
	words: string,
	lowestDb = -60,
): string {
	const [fit, target, before] = lines.map((line) => {
		const topDb = Math.max(...line.map(({ levelDb }) => levelDb));
		return line
			.map((point) => ({ ...point, levelDb: point.levelDb - topDb }))
			.filter(({ levelDb }) => levelDb > lowestDb);
	}) as [ChartLine[], ChartLine[], ChartLine[]];
	return responseChart(
		{
			ifHz,
			points: [],
			before: [
				{ name: null, points: before.map((point) => ({ ...point, uncertaintyDb: null })), isOfOtherScale: false },
			],
			fit,
			target: target.map((point) => ({ ...point, uncertaintyDb: null })),
			cursorHz: null,
			widthPx,
			heightPx,
		},
		words,
	);
}

const soundSet: BenchSet = { design: tm517, faults: [], turns: factoryTurns(tm517), pointerSlipM: 0 };

/** What the meter reads of the demo set when the generator goes across the IF at its converter grid. */
function heardAcross(levelV: number): readonly ChartLine[] {
	const steady = new SteadyState(valuesAt(soundSet, tuningAtMark(soundSet, 1000e3), 0.05));
	return evenly(-15e3, 15e3, 61).map((hertz) => {
		const { toneV } = steady.operatingPoint({
			...standardTone,
			into: 'converter grid',
			frequencyHz: tm517.ifHz + hertz,
			levelV,
		});
		return { frequencyHz: tm517.ifHz + hertz, levelDb: 20 * Math.log10(Math.max(toneV, 1e-9)), uncertaintyDb: 0 };
	});
}

function avcOfDemoSet(): string {
	const steady = new SteadyState(valuesAt(soundSet, tuningAtMark(soundSet, 1000e3), 0.05));
	const after = evenly(-5, -1, 25).map((decade) => {
		const inputV = 10 ** decade;
		const { toneV } = steady.operatingPoint({ ...standardTone, into: 'antenna', frequencyHz: 1000e3, levelV: inputV });
		return { inputV, outputV: toneV };
	});
	return avcChart([], after, 560);
}

const ground: DialGround = {
	band: broadcast,
	ifHz,
	side: 'above',
	pointsHz: [600e3, 1000e3, 1400e3],
	network: 'gang',
	lowEnd: 'padder',
	hasCutPlates: false,
	readingM: 0.3e-3,
	travelM: 0.15,
};
const sound = new DialModel(ground);

/** What each fault of the oscillator and the dial does over the band. */
function faults(): string {
	const curve = (words: string, kind: 'plain' | 'dashed', change: Partial<DialState>) => ({
		words,
		kind,
		points: evenly(broadcast.lowHz, broadcast.highHz, 54).map((dialHz) => ({
			dialHz,
			value: sound.errorHz({ ...soundState, ...change }, dialHz) / 1e3,
		})),
	});
	return bandChart(
		[
			curve('trimmer', 'plain', { trimmerF: -1e-12 }),
			curve('padder', 'dashed', { padderShare: -0.03 }),
			curve('coil', 'plain', { coilShare: -0.01 }),
			curve('pointer', 'dashed', { pointerM: -0.3e-3 }),
			curve('IF', 'plain', { ifOffHz: -2e3 }),
		],
		'error, kc',
		'What one fault alone does over the band: trimmer 1 mmf and coil 1 per cent and padder 3 per cent too small, pointer 0.3 mm toward the low end, IF 2 kilocycles low',
		widthPx,
	);
}

/** A scale with its errors, and what is foretold of it. */
function scale(): string {
	const dialsHz = [540e3, 600e3, 700e3, 800e3, 1000e3, 1200e3, 1400e3, 1600e3];
	const found = { ...soundState, trimmerF: 4e-12, padderShare: -0.02 };
	const points = dialsHz.map((dialHz) => ({
		dialHz,
		heardHz: sound.heardHz(found, dialHz),
		heardUncertaintyHz: 200,
		pass: 0,
	}));
	const { plan, errors, model } = dialAnswer(ground, points);
	const share = (dialHz: number): number => model.scale.placeM(dialHz) / ground.travelM;
	const flag = (dialHz: number, errorHz: number) => ({
		share: share(dialHz),
		errorHz,
		words: kcWords(errorHz).replace(' kc', ''),
	});
	return dialScale(
		{
			shape: 'straight',
			marks: dialsHz.map((dialHz) => ({ share: share(dialHz), words: String(dialHz / 1e3) })),
			nowShare: null,
			measured: errors.map(({ dialHz, errorHz }) => flag(dialHz, errorHz)),
			foretold: errors.map(({ dialHz }) => flag(dialHz, model.errorHz(plan.after, dialHz))),
			whistles: [],
		},
		'A scale with its errors as flags, and beneath them what is foretold after two acts',
		widthPx,
	);
}

/** The antenna trimmer peaked as usual, and for stations at the low end. */
function antennaTrim(): string {
	const { usual, compromise } = trimChoices(sound, { q: 60, coilShare: 0.02 }, [640e3, 710e3, 850e3, 910e3]);
	const line = (words: string, kind: 'plain' | 'dashed', { curve }: TrimChoice) => ({
		words,
		kind,
		points: curve.map(({ dialHz, lossDb }) => ({ dialHz, value: lossDb })),
	});
	return bandChart(
		[line('usual', 'plain', usual), line('for four', 'dashed', compromise)],
		'loss, dB',
		'Loss of the antenna circuit, its coil 2 per cent off: trimmer peaked at 1400, and for stations at 640, 710, 850 and 910',
		widthPx,
	);
}

function image(): string {
	const points = imageRejection(sound, { q: 60, coilShare: 0 }, 1).map(({ dialHz, rejectionDb }) => ({
		dialHz,
		value: rejectionDb,
	}));
	return bandChart(
		[{ words: '', kind: 'plain', points }],
		'image, dB',
		'How far one circuit of Q 60 keeps the image down over the band',
		widthPx,
	);
}

function schools(of: 'errorHz' | 'lossDb'): string {
	const priced = dialSchools(sound, 60, 0.02);
	const lines = (priced ?? []).map(({ name, curve }, k) => ({
		words: name === 'true dial' ? 'true dial' : 'rocked',
		kind: k === 0 ? ('plain' as const) : ('dashed' as const),
		points: curve.map(({ dialHz, errorHz, lossDb }) => ({ dialHz, value: of === 'errorHz' ? errorHz / 1e3 : lossDb })),
	}));
	return of === 'errorHz'
		? bandChart(lines, 'error, kc', 'Dial error of both schools, antenna coil 2 per cent off', widthPx)
		: bandChart(lines, 'loss, dB', 'Antenna loss of both schools, antenna coil 2 per cent off', widthPx);
}

function tracking(): string {
	const { errorHz } = trackingCurve([600e3, 1000e3, 1400e3], ifHz, 'above');
	const points = evenly(broadcast.lowHz, broadcast.highHz, 107).map((dialHz) => ({
		dialHz,
		value: errorHz(dialHz) / 1e3,
	}));
	return bandChart(
		[{ words: '', kind: 'plain', points }],
		'error, kc',
		'Tracking error over the band with tie points at 600, 1000 and 1400 kc',
		widthPx,
	);
}

/** Every drawing by its file. */
export function drawings(): ReadonlyMap<string, string> {
	const made = {
		tracking: tracking(),
		'dial-faults': faults(),
		'dial-scale': scale(),
		'antenna-trim': antennaTrim(),
		'image-rejection': image(),
		'schools-dial': schools('errorHz'),
		'schools-loss': schools('lossDb'),
		coupling: curves(
			[twoCans([0, 0], 80, 1), twoCans([0, 0], 80, 1.6), twoCans([0, 0], 80, 0.6)],
			'Three IF curves: critical coupling drawn through, closer coupling with two peaks dashed, looser coupling grey',
		),
		'same-shape': curves(
			[twoCans([0, 0], 80, 1.01), [], twoCans([-2e3, 2e3], 80, 0.71)],
			'Two IF curves that lie on each other: one aligned, drawn through, and one with its windings tuned apart, grey',
		),
		'weak-and-strong': curves(
			[heardAcross(100e-6), [], heardAcross(30e-3)],
			'The same strip read with a weak signal, drawn through, and with a strong one, grey and flattened',
			-20,
		),
		avc: avcOfDemoSet(),
	};
	return new Map(Object.entries(made).map(([name, drawing]) => [`docs/drawings/${name}.svg`, `${printed(drawing)}\n`]));
}
