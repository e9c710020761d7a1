import {
	isPiledFormulaAtHome,
	type LayerCoil,
	layerInductanceH,
	nagaokaCoefficient,
	type PiledCoil,
	turnsForInductance,
	wheelerLayerInductanceH,
	wheelerPiledInductanceH,
} from '#core/circuit/coil.ts';
import { nearestPreferred } from '#core/circuit/preferred-values.ts';
import {
	type CoilResonance,
	coilFromResonances,
	dampedWidthHz,
	dampingResistor,
	type Edges,
	qFromEdges,
} from '#core/circuit/tuned-circuit.ts';
import type { Estimate } from '#core/numeric/estimate.ts';
import { estimateWords } from '#record/estimate-words.ts';
import { capacitanceWords, frequencyWords, inductanceWords, resistanceWords } from '#record/quantity-words.ts';
import type { PartAnswer } from './part-answer.ts';

/** Turns to put on or take off, as words. */
function turnsWords(turns: number, presentTurns: number): string {
	const change = turns - presentTurns;
	return `${turns.toFixed(1)} turns: ${change < 0 ? 'take off' : 'put on'} ${Math.abs(change).toFixed(1)} at the same pitch`;
}

function wantedFigures<Coil extends LayerCoil | PiledCoil>(
	coil: Coil,
	wantedH: number | null,
	inductanceH: (coil: Coil) => number,
): { turns: number | null; lines: PartAnswer['lines'] } {
	if (wantedH === null) return { turns: null, lines: [] };
	const turns = turnsForInductance(coil, wantedH, inductanceH);
	return { turns, lines: [{ name: inductanceWords(wantedH), words: turnsWords(turns, coil.turns) }] };
}

/** What no formula here knows; no figures, since they hang on core and wire (common practice). */
const coilCautions: readonly string[] = [
	'Iron core: the figures are for the coil without it. Wind to the turns that were there, put the old core back and measure with it in the middle of its travel; cores of another set or of another material do not add the same. A core is brittle: never force it.',
	'Litz wire: it changes the Q, hardly the inductance. Use as many strands as there were, of the same wire, and tin every strand at both ends: one that is broken or not soldered makes the peak blunt. Solid wire in its place tunes alike and peaks lower.',
];

/** Inductance of a one-layer coil, and the turns for a wanted one. */
export function layerCoilAnswer(coil: LayerCoil, wantedH: number | null): PartAnswer {
	const inductanceH = layerInductanceH(coil);
	const wheelerH = wheelerLayerInductanceH(coil);
	const nagaoka = nagaokaCoefficient(coil.diameterM / coil.lengthM);
	const wanted = wantedFigures(coil, wantedH, layerInductanceH);
	const inLimits = coil.lengthM >= 0.4 * coil.diameterM;
	return {
		figures: { inductanceH, nagaoka, wheelerH, wantedTurns: wanted.turns },
		lines: [
			{ name: 'inductance', words: inductanceWords(inductanceH) },
			{
				name: 'shop formula',
				words: `${inductanceWords(wheelerH)}${inLimits ? '' : '; too short for it, which wants 0.4 diameters'}`,
			},
			...wanted.lines,
		],
		sheetWords: `Coil of ${coil.turns} turns, ${(coil.diameterM * 1e3).toFixed(1)} mm across, ${(coil.lengthM * 1e3).toFixed(1)} mm long: ${inductanceWords(inductanceH)} computed.`,
		toleranceWords:
			'Exact for a thin sheet of current; spaced round wire comes out some per cent lower. A shield or a chassis near the coil lowers it as well.',
		sourceWords: 'Nagaoka 1909, exact; beside it Wheeler\u2019s shop formula of 1928.',
		cautions: coilCautions,
	};
}

/** Inductance of a many-layer coil by the shop formula, and the turns for a wanted one. */
export function piledCoilAnswer(coil: PiledCoil, wantedH: number | null): PartAnswer {
	const inductanceH = wheelerPiledInductanceH(coil);
	const wanted = wantedFigures(coil, wantedH, wheelerPiledInductanceH);
	const atHome = isPiledFormulaAtHome(coil);
	return {
		figures: { inductanceH, isFormulaAtHome: atHome, wantedTurns: wanted.turns },
		lines: [{ name: 'inductance', words: inductanceWords(inductanceH) }, ...wanted.lines],
		sheetWords: `Coil of ${coil.turns} turns in layers: ${inductanceWords(inductanceH)} by the shop formula.`,
		toleranceWords: atHome
			? 'About 1 % for this shape.'
			: 'This shape is far from the one the formula is good for; the figure is a start, no more.',
		sourceWords: 'Wheeler 1928, shop formula for many layers.',
		cautions: coilCautions,
	};
}

/** An estimate with as many digits as it knows; three where its uncertainty is not known. */
function knownWords(
	{ value, uncertainty }: Estimate,
	plainWords: (value: number) => string,
	[times, unit]: readonly [number, string],
): string {
	if (uncertainty === null) return plainWords(value);
	return estimateWords({ value: value * times, uncertainty: uncertainty * times }, unit);
}

/** Inductance and self-capacity from two resonances. */
export function resonancesAnswer(low: CoilResonance, high: CoilResonance): PartAnswer {
	const { inductanceH, selfCapacitanceF } = coilFromResonances(low, high);
	const inductance = knownWords(
		inductanceH,
		inductanceWords,
		inductanceH.value < 0.9995e-3 ? [1e6, 'uH'] : [1e3, 'mH'],
	);
	const isPossible = selfCapacitanceF.value >= 0;
	const selfCapacity = `${knownWords(selfCapacitanceF, capacitanceWords, [1e12, 'mmf'])}${isPossible ? '' : ': not possible; check frequencies and capacitors'}`;
	return {
		figures: { inductanceH, selfCapacitanceF },
		lines: [
			{ name: 'inductance', words: inductance },
			{ name: 'self-capacity', words: selfCapacity },
		],
		sheetWords: `Coil from two resonances: ${inductance}, self-capacity ${selfCapacity}.`,
		toleranceWords:
			'The uncertainties of capacitors and frequencies are carried on. A third resonance on the line of 1/f\u00b2 against capacitance checks the other two.',
		sourceWords: 'Two-frequency method of the textbooks.',
		cautions: ['On the bench only, coil out of circuit: never with a probe on the circuit that is being set.'],
	};
}

/** What the trade calls 3 and 6 dB: half the power, half the voltage. */
const halvesDb: ReadonlyMap<number, number> = new Map([
	[3, 10 * Math.log10(2)],
	[6, 20 * Math.log10(2)],
]);

/** Q from the edges of a single circuit's response. */
export function qAnswer(edges: Edges): PartAnswer {
	const q = qFromEdges({ ...edges, belowPeakDb: halvesDb.get(edges.belowPeakDb) ?? edges.belowPeakDb });
	const words = knownWords(q, (value) => value.toFixed(0), [1, '']).trim();
	return {
		figures: { q },
		lines: [{ name: 'Q', words }],
		sheetWords: `Q ${words} from ${frequencyWords(edges.lowHz, 'US')} and ${frequencyWords(edges.highHz, 'US')}, ${edges.belowPeakDb} dB below the peak.`,
		toleranceWords: 'One tuned circuit alone. A coupled pair has another law.',
		sourceWords: 'Universal curve of a single circuit.',
		cautions: [],
	};
}

/** The resistor across a circuit that makes it as wide as wanted. */
export function dampingAnswer(inductanceH: number, q: number, frequencyHz: number, wantedWidthHz: number): PartAnswer {
	const damping = dampingResistor(inductanceH, q, frequencyHz, wantedWidthHz);
	const preferredOhm = nearestPreferred('E24', damping.shuntOhm);
	const preferredWidthHz = dampedWidthHz(damping, wantedWidthHz, preferredOhm);
	const fitted = `${resistanceWords(preferredOhm)}, nearest in series E24`;
	const given = `${frequencyWords(preferredWidthHz, 'US')} at 3 dB`;
	return {
		figures: { ...damping, preferredOhm, preferredWidthHz },
		lines: [
			{ name: 'resistor', words: resistanceWords(damping.shuntOhm) },
			{ name: 'to fit', words: `${fitted}: ${given}` },
			{ name: 'circuit', words: `${resistanceWords(damping.ownOhm)} now, ${resistanceWords(damping.neededOhm)} then` },
			{ name: 'loss', words: `${damping.lossDb.toFixed(1)} dB at the peak` },
		],
		sheetWords: `${resistanceWords(preferredOhm)} across ${inductanceWords(inductanceH)}: ${given}.`,
		toleranceWords: 'One circuit, driven by a tube of high plate resistance; as uncertain as its Q.',
		sourceWords: 'Parallel loading of a tuned circuit, textbook form.',
		cautions: ['Fit and move it with the set unplugged, discharged and proved dead.'],
	};
}
