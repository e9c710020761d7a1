import type { AdjusterLaw } from '#core/circuit/adjuster-law.ts';
import type { GangLaw } from '#core/circuit/gang.ts';

/** One winding of an IF transformer; the adjuster gives either its capacitance or its inductance. */
export interface IfWindingDesign {
	readonly adjuster: string;
	/** Henries where the adjuster is a trimmer. */
	readonly henry: number;
	/** Farads beside the adjuster: strays, and the fixed condenser where the adjuster is a core. */
	readonly fixedF: number;
	/** Of the winding with its can, at the intermediate frequency. */
	readonly q: number;
}

/** A small superhet as its designer drew it: all values nominal, SI units. */
export interface SetDesign {
	readonly id: string;
	readonly name: string;
	readonly ifHz: number;
	readonly band: { readonly lowHz: number; readonly highHz: number };
	/** Where sensitivity is stated, low to high. */
	readonly testHz: readonly number[];
	/** Length of the dial scale; the pointer moves in proportion to the gang. */
	readonly scaleTravelM: number;
	readonly gang: GangLaw;
	readonly adjusters: Readonly<Record<string, AdjusterLaw>>;

	readonly trap: { readonly adjuster: string; readonly henry: number; readonly ohm: number; readonly fixedF: number };
	readonly antenna: {
		readonly adjuster: string;
		readonly primaryH: number;
		readonly primaryQ: number;
		readonly secondaryH: number;
		readonly secondaryQ: number;
		/** Frequency at which the two Q hold; the resistance rises in proportion to frequency, so that Q stays. */
		readonly qHz: number;
		readonly coupling: number;
		readonly topF: number;
		readonly strayF: number;
		readonly factoryTrimmerF: number;
	};
	readonly oscillator: {
		readonly henry: number;
		readonly trimmer: string;
		/** Beside the trimmer, across the gang. */
		readonly strayF: number;
		readonly padder: string;
		/** Beside the padder's screw. */
		readonly padderFixedF: number;
		/** What trimmer and padder were set to when the scale was drawn. */
		readonly factoryTrimmerF: number;
		readonly factoryPadderF: number;
	};
	/** First transformer's primary and secondary, second transformer's primary and secondary. */
	readonly windings: readonly [IfWindingDesign, IfWindingDesign, IfWindingDesign, IfWindingDesign];
	readonly couplings: readonly [number, number];
	readonly tubes: TubeDesign;
	readonly detector: DetectorDesign;
	readonly audio: AudioDesign;
}

/** The two controlled tubes. */
export interface TubeDesign {
	readonly conversionS: number;
	/** Transconductance of the converter's signal grid for a signal that already is at the intermediate frequency. */
	readonly throughS: number;
	readonly converterPlateOhm: number;
	readonly converterNoiseOhm: number;
	readonly ifTubeS: number;
	readonly ifTubePlateOhm: number;
	/** Grid to plate of the IF tube. */
	readonly feedbackF: number;
}

/** Diode, its load and the AVC line. */
export interface DetectorDesign {
	readonly loadOhm: number;
	readonly reservoirF: number;
	readonly avcOhm: number;
	readonly avcF: number;
}

/** From the volume control to the voice coil. */
export interface AudioDesign {
	/** Volts at the voice coil for a volt at the detector, volume full up. */
	readonly gain: number;
	/** Peak volts at the voice coil that the output tube can give. */
	readonly mostV: number;
	readonly voiceCoilOhm: number;
	/** Below this the coupling condensers cut. */
	readonly lowCutHz: number;
}
