/** Whistles that a superhet makes by itself: where on the dial, from what, and how high the tone. */
import type { BandLimits, OscillatorSide } from '#core/circuit/tracking-curve.ts';

/** What makes a whistle. */
export type WhistleKind =
	| 'image'
	| 'IF harmonic'
	| 'stations one IF apart'
	| 'sum of stations'
	| 'difference of stations'
	| 'twice one less another'
	| 'oscillator harmonic'
	| 'harmonic of a station';

/** One whistle. */
export interface Whistle {
	/** Where the pointer stands when it is heard. */
	readonly dialHz: number;
	readonly kind: WhistleKind;
	/** With D for the dial, a and b for stations: `D = a - 2 IF`. */
	readonly formula: string;
	readonly stationsHz: readonly number[];
	/** The wanted station beside which it is heard; `null` when none is near. */
	readonly wantedHz: number | null;
	/** Tone against the wanted station; `null` when none is near. */
	readonly toneHz: number | null;
}

/** A whistle farther from a wanted station than this is not heard beside it: half a channel, common practice. */
const earshotHz = 5e3;

/** Kinds from the strongest to the weakest, as a rule (chosen: by the order of the distortion that makes them). */
const rank: readonly WhistleKind[] = [
	'image',
	'IF harmonic',
	'stations one IF apart',
	'sum of stations',
	'difference of stations',
	'oscillator harmonic',
	'harmonic of a station',
	'twice one less another',
];

type Line = Pick<Whistle, 'dialHz' | 'kind' | 'formula' | 'stationsHz'>;

/**
 * All whistles of a set whose places are known, those beside a wanted station first, strongest kind first.
 * @param stationsHz what can be received or can break in, in the band or out of it
 * @param wantedHz stations that the person listens to; whistles are judged beside them
 */
export function whistles(
	ifHz: number,
	band: BandLimits,
	side: OscillatorSide,
	stationsHz: readonly number[],
	wantedHz: readonly number[],
): readonly Whistle[] {
	const off = side === 'above' ? ifHz : -ifHz;
	const lines = [
		...ifHarmonics(ifHz, band),
		...stationsHz.flatMap((station) => [
			{
				dialHz: station - 2 * off,
				kind: 'image',
				formula: side === 'above' ? 'D = a - 2 IF' : 'D = a + 2 IF',
				stationsHz: [station],
			} as const,
			...oscillatorHarmonics(ifHz, off, station),
		]),
		...pairs(stationsHz, ifHz, wantedHz),
	];
	const seen = new Set<string>();
	return lines
		.filter(({ dialHz }) => dialHz >= band.lowHz && dialHz <= band.highHz)
		.filter(({ dialHz, kind, stationsHz: own }) => {
			const name = `${kind} ${Math.round(dialHz)} ${own.join(' ')}`;
			return !seen.has(name) && seen.add(name);
		})
		.map((line) => beside(line, wantedHz))
		.sort(
			(one, other) =>
				Number(one.wantedHz === null) - Number(other.wantedHz === null) ||
				rank.indexOf(one.kind) - rank.indexOf(other.kind) ||
				(one.toneHz ?? 0) - (other.toneHz ?? 0) ||
				one.dialHz - other.dialHz,
		);
}

/** The detector's harmonics of the IF that reach the antenna: heard wherever a station lies near. */
function ifHarmonics(ifHz: number, { highHz }: BandLimits): readonly Line[] {
	const lines: Line[] = [];
	for (let times = 2; times * ifHz <= highHz && times <= 9; times++) {
		lines.push({ dialHz: times * ifHz, kind: 'IF harmonic', formula: `D = ${times} IF`, stationsHz: [] });
	}
	return lines;
}

/** m Fo and n a lie one IF apart: m and n up to 3, the image itself left out. */
function oscillatorHarmonics(ifHz: number, offHz: number, stationHz: number): readonly Line[] {
	const lines: Line[] = [];
	for (const m of [1, 2, 3]) {
		for (const n of [1, 2, 3]) {
			for (const sign of [-1, 1]) {
				if (m === 1 && n === 1) continue;
				const dialHz = (n * stationHz + sign * ifHz) / m - offHz;
				// A harmonic of the wanted station itself needs no other station and makes no tone of its own.
				if (m === n && Math.abs(dialHz - stationHz) < 1) continue;
				lines.push({
					dialHz,
					kind: m === 1 ? 'harmonic of a station' : 'oscillator harmonic',
					formula: `${m === 1 ? '' : `${m} `}Fo = ${n === 1 ? '' : `${n} `}a ${sign < 0 ? '-' : '+'} IF`,
					stationsHz: [stationHz],
				});
			}
		}
	}
	return lines;
}

function pairs(stationsHz: readonly number[], ifHz: number, wantedHz: readonly number[]): readonly Line[] {
	const lines: Line[] = [];
	for (const [place, one] of stationsHz.entries()) {
		for (const other of stationsHz.slice(place + 1)) {
			const [low, high] = [Math.min(one, other), Math.max(one, other)];
			const both = [high, low];
			lines.push(
				{ dialHz: high + low, kind: 'sum of stations', formula: 'D = a + b', stationsHz: both },
				{ dialHz: high - low, kind: 'difference of stations', formula: 'D = a - b', stationsHz: both },
				{ dialHz: 2 * high - low, kind: 'twice one less another', formula: 'D = 2 a - b', stationsHz: both },
				{ dialHz: 2 * low - high, kind: 'twice one less another', formula: 'D = 2 b - a', stationsHz: both },
			);
			if (Math.abs(high - low - ifHz) < earshotHz) {
				// Two strong stations one IF apart make the IF by themselves: it is heard under every station.
				for (const dialHz of wantedHz) {
					lines.push({ dialHz, kind: 'stations one IF apart', formula: 'a - b = IF', stationsHz: both });
				}
			}
		}
	}
	return lines;
}

function beside(line: Line, wantedHz: readonly number[]): Whistle {
	const near = wantedHz
		.filter((wanted) => !(line.kind === 'image' && line.stationsHz[0] === wanted))
		.map((wanted) => ({ wanted, toneHz: Math.abs(wanted - line.dialHz) }))
		.filter(({ toneHz }) => toneHz <= earshotHz)
		.sort((one, other) => one.toneHz - other.toneHz)[0];
	return { ...line, wantedHz: near?.wanted ?? null, toneHz: near?.toneHz ?? null };
}
