import { builtAttenuator } from '#core/circuit/attenuator.ts';
import { nearestPreferred } from '#core/circuit/preferred-values.ts';
import { type Language, usualLanguage } from '#record/language.ts';
import { resistanceWords } from '#record/quantity-words.ts';

/** One section of a pad: a pi of resistors that a switch puts in or passes by. */
export interface PadSection {
	readonly nominalDb: number;
	readonly seriesOhm: number;
	/** Each of the two across. */
	readonly shuntOhm: number;
	/** What it really takes away in preferred values, the pad closed by its load. */
	readonly lossDb: number;
}

/** A switchable pad to be built for a generator that has no fine attenuator. */
export interface SwitchablePad {
	readonly impedanceOhm: number;
	readonly sections: readonly PadSection[];
	/** Across the far end, so that a step is the same whatever follows. */
	readonly loadOhm: number;
	readonly words: readonly string[];
}

/** Most generators and cables of today; common practice. */
const usualImpedanceOhm = 50;

/** A pad of 6 and 20 dB, each with its switch, in E24 values: the two steps that the sheet asks for, and 26 dB together. */
export function switchablePad({ say }: Language = usualLanguage): SwitchablePad {
	const sections = [6, 20].map((nominalDb): PadSection => {
		const { seriesOhm, shuntOhm, lossDb } = builtAttenuator('pi', usualImpedanceOhm, nominalDb, 'E24');
		return { nominalDb, seriesOhm, shuntOhm, lossDb };
	});
	const [small = '', large = ''] = sections.map(({ lossDb }) => lossDb.toFixed(1));
	return {
		impedanceOhm: usualImpedanceOhm,
		sections,
		loadOhm: nearestPreferred('E24', usualImpedanceOhm),
		words: [
			say`For a generator of ${resistanceWords(usualImpedanceOhm)}; the steps are ${small} and ${large} dB in these values.`,
			say`Between generator and dummy, in a closed metal box, a wall between the sections. It holds off no voltage of the set: the dummy stays behind it.`,
			say`Levels read with it are relative: note which switches are in.`,
		],
	};
}
