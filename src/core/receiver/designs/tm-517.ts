import type { CompressionLaw } from '#core/circuit/adjuster-law.ts';
import type { SetDesign } from '../design.ts';

const trimmer = (leastF: number, mostF: number, travelTurns = 4): CompressionLaw => ({
	kind: 'compression',
	leastF,
	mostF,
	travelTurns,
});

/**
 * Invented five-tube AC/DC set with compression trimmers. Coil, tube and detector figures are chosen or from memory;
 * the oscillator follows three-point tracking at 600, 1000 and 1400 kc.
 */
export const tm517: SetDesign = {
	id: 'tm-517',
	name: 'Thistlemoor TM-517',
	ifHz: 455e3,
	band: { lowHz: 540e3, highHz: 1620e3 },
	testHz: [600e3, 1000e3, 1400e3],
	scaleTravelM: 0.15,
	gang: { leastF: 12e-12, mostF: 425e-12, exponent: 1.7 },
	adjusters: {
		'if1-primary': trimmer(25e-12, 80e-12),
		'if1-secondary': trimmer(25e-12, 80e-12),
		'if2-primary': trimmer(25e-12, 80e-12),
		'if2-secondary': trimmer(25e-12, 80e-12),
		'wave-trap': trimmer(25e-12, 160e-12),
		'antenna-trimmer': trimmer(2e-12, 20e-12, 3),
		'oscillator-trimmer': trimmer(2e-12, 20e-12, 3),
		padder: trimmer(60e-12, 260e-12, 5),
	},
	trap: { adjuster: 'wave-trap', henry: 120e-6, ohm: 4.9, fixedF: 940e-12 },
	antenna: {
		adjuster: 'antenna-trimmer',
		primaryH: 1.1e-3,
		primaryQ: 35,
		secondaryH: 218.26e-6,
		secondaryQ: 55,
		qHz: 950e3,
		coupling: -0.16,
		topF: 3e-12,
		strayF: 2e-12,
		factoryTrimmerF: 5e-12,
	},
	oscillator: {
		henry: 119.24e-6,
		trimmer: 'oscillator-trimmer',
		strayF: 14e-12,
		padder: 'padder',
		padderFixedF: 280e-12,
		factoryTrimmerF: 7.4e-12,
		factoryPadderF: 138.4e-12,
	},
	windings: [
		{ adjuster: 'if1-primary', henry: 1.1e-3, fixedF: 60e-12, q: 78 },
		{ adjuster: 'if1-secondary', henry: 1.1e-3, fixedF: 60e-12, q: 78 },
		{ adjuster: 'if2-primary', henry: 1.1e-3, fixedF: 60e-12, q: 78 },
		{ adjuster: 'if2-secondary', henry: 1.1e-3, fixedF: 60e-12, q: 78 },
	],
	couplings: [0.0112, 0.015],
	tubes: {
		conversionS: 250e-6,
		throughS: 350e-6,
		converterPlateOhm: 600e3,
		converterNoiseOhm: 240e3,
		ifTubeS: 1.7e-3,
		ifTubePlateOhm: 160e3,
		feedbackF: 0.004e-12,
	},
	detector: { loadOhm: 500e3, reservoirF: 100e-12, avcOhm: 3.3e6, avcF: 0.05e-6 },
	audio: { gain: 26, mostV: 2.65, voiceCoilOhm: 3.2, lowCutHz: 90 },
};
