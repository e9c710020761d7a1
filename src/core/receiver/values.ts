import { adjusterValue } from '#core/circuit/adjuster-law.ts';
import { gangFarad } from '#core/circuit/gang.ts';
import type { AudioDesign, DetectorDesign, IfWindingDesign, SetDesign, TubeDesign } from './design.ts';

/** How hands have left a set: everything that moves without a soldering iron. */
export interface SetPosition {
	/** Turns of each adjuster from its counter-clockwise stop, by id. */
	readonly turns: Readonly<Record<string, number>>;
	/** Gang: 0 fully meshed, the lowest frequency, to 1 fully open. */
	readonly tuning: number;
	/** Volume control, 0 to 1. */
	readonly volume: number;
}

/** A winding as it is now. */
export interface WindingValues {
	readonly henry: number;
	readonly ohm: number;
	readonly farad: number;
	/** Across the winding: a part that damps it; 0 when there is none. */
	readonly siemens: number;
}

/** Sounds and jumps of a sick set: they are heard in time and leave the steady state alone. */
export interface Disturbance {
	/** Ripple of the supply at the output tube, volts rms at the voice coil, volume control or not. */
	readonly hum?: { readonly frequencyHz: number; readonly levelV: number };
	/** The audio stages switching each other on and off through their supply, volts peak at the voice coil. */
	readonly motorboating?: { readonly frequencyHz: number; readonly levelV: number };
	/** Silver that creeps in the mica of an IF winding: its capacitance jumps to and fro, as often as `perS`, and each jump dumps a charge. */
	readonly crackle?: { readonly winding: number; readonly farad: number; readonly perS: number };
}

/** Every electrical value of a set as it stands: what the two engines and the faults work on. */
export interface SetValues {
	readonly ifHz: number;
	readonly windings: readonly WindingValues[];
	/** Mutual inductances of the two transformers. */
	readonly mutualH: readonly [number, number];
	readonly trap: { readonly henry: number; readonly ohm: number; readonly farad: number };
	readonly antenna: {
		readonly primaryH: number;
		readonly secondaryH: number;
		readonly mutualH: number;
		/** Resistances at `ohmHz`; they rise in proportion to frequency. */
		readonly primaryOhm: number;
		readonly secondaryOhm: number;
		readonly ohmHz: number;
		readonly topF: number;
		/** Across the secondary, gang included. */
		readonly farad: number;
	};
	readonly oscillator: { readonly henry: number; readonly acrossGangF: number; readonly padderF: number };
	readonly tubes: TubeDesign;
	readonly detector: DetectorDesign & {
		/** Leak from the AVC line to the common, siemens. */
		readonly avcLeakS: number;
	};
	readonly audio: AudioDesign;
	readonly volume: number;
	/** What the set gives out by itself; nothing in a sound one. */
	readonly disturbance: Disturbance;
}

function windingValues(design: IfWindingDesign, set: SetDesign, position: SetPosition): WindingValues {
	const law = set.adjusters[design.adjuster];
	if (!law) throw new Error(`invalid design ${set.id}: no adjuster ${design.adjuster}`);
	const value = adjusterValue(law, position.turns[design.adjuster] ?? 0);
	const henry = law.kind === 'slug' ? value : design.henry;
	const farad = design.fixedF + (law.kind === 'slug' ? 0 : value);
	return { henry, ohm: (2 * Math.PI * set.ifHz * henry) / design.q, farad, siemens: 0 };
}

/** The values of a sound set with its adjusters, gang and volume where a position has them. */
export function setValues(design: SetDesign, position: SetPosition): SetValues {
	const farad = (adjuster: string): number => {
		const law = design.adjusters[adjuster];
		if (!law) throw new Error(`invalid design ${design.id}: no adjuster ${adjuster}`);
		return adjusterValue(law, position.turns[adjuster] ?? 0);
	};
	const { antenna, oscillator, trap } = design;
	const windings = design.windings.map((winding) => windingValues(winding, design, position));
	const mutual = (transformer: 0 | 1): number => {
		const first = windings[2 * transformer] as WindingValues;
		const second = windings[2 * transformer + 1] as WindingValues;
		return design.couplings[transformer] * Math.sqrt(first.henry * second.henry);
	};
	const gangF = gangFarad(design.gang, position.tuning);
	const omega = 2 * Math.PI * antenna.qHz;
	return {
		ifHz: design.ifHz,
		windings,
		mutualH: [mutual(0), mutual(1)],
		trap: { henry: trap.henry, ohm: trap.ohm, farad: trap.fixedF + farad(trap.adjuster) },
		antenna: {
			primaryH: antenna.primaryH,
			secondaryH: antenna.secondaryH,
			mutualH: antenna.coupling * Math.sqrt(antenna.primaryH * antenna.secondaryH),
			primaryOhm: (omega * antenna.primaryH) / antenna.primaryQ,
			secondaryOhm: (omega * antenna.secondaryH) / antenna.secondaryQ,
			ohmHz: antenna.qHz,
			topF: antenna.topF,
			farad: antenna.strayF + farad(antenna.adjuster) + gangF,
		},
		oscillator: {
			henry: oscillator.henry,
			acrossGangF: gangF + oscillator.strayF + farad(oscillator.trimmer),
			padderF: oscillator.padderFixedF + farad(oscillator.padder),
		},
		tubes: design.tubes,
		detector: { ...design.detector, avcLeakS: 0 },
		audio: design.audio,
		volume: position.volume,
		disturbance: {},
	};
}

const between = (from: number, to: number, share: number): number => from + (to - from) * share;

function windingBetween(from: WindingValues, to: WindingValues, share: number): WindingValues {
	return {
		henry: between(from.henry, to.henry, share),
		ohm: between(from.ohm, to.ohm, share),
		farad: between(from.farad, to.farad, share),
		siemens: between(from.siemens, to.siemens, share),
	};
}

/** Values on the way from one setting to another: the strip and the volume glide, the rest is as it will be. */
export function valuesBetween(from: SetValues, to: SetValues, share: number): SetValues {
	return {
		...to,
		windings: to.windings.map((winding, k) => windingBetween(from.windings[k] ?? winding, winding, share)),
		mutualH: [between(from.mutualH[0], to.mutualH[0], share), between(from.mutualH[1], to.mutualH[1], share)],
		volume: between(from.volume, to.volume, share),
	};
}

/** Frequency of the local oscillator, hertz. */
export function oscillatorHz({ oscillator }: SetValues): number {
	const { acrossGangF, padderF, henry } = oscillator;
	return 1 / (2 * Math.PI * Math.sqrt((henry * acrossGangF * padderF) / (acrossGangF + padderF)));
}
