import { type Language, usualLanguage } from '#record/language.ts';
import type { RunState } from './run-state.ts';

/** How one adjuster gets back to where it was found. */
export interface WayHome {
	readonly adjuster: string;
	/** Net turn so far in eighths, clockwise positive; `null` when a turn was not counted. */
	readonly eighths: number | null;
	readonly words: string;
}

/** Turns in words: "3/8 turn", "1 and 1/8 turns". */
function turnsWords(eighths: number, { say }: Language = usualLanguage): string {
	const whole = Math.floor(eighths / 8);
	const rest = eighths % 8;
	const part = rest === 0 ? '' : `${rest}/8`;
	if (whole === 0) return say`${part} turn`;
	if (part !== '') return say`${whole} and ${part} turns`;
	return whole === 1 ? say`1 turn` : say`${whole} turns`;
}

/** What was turned in a run and how to undo it, in the order of the first touch. */
export function wayHome({ turns }: RunState): readonly WayHome[] {
	const ids = [...new Set(turns.map(({ adjuster }) => adjuster))];
	return ids.map((adjuster) => {
		const own = turns.filter((turn) => turn.adjuster === adjuster);
		if (own.some(({ eighths }) => eighths === null)) {
			return { adjuster, eighths: null, words: 'A turn was not counted: go by the pencil mark.' };
		}
		const net = own.reduce((sum, { eighths }) => sum + (eighths ?? 0), 0);
		const words =
			net === 0
				? 'It stands where it was found.'
				: `Turn it ${turnsWords(Math.abs(net))} back the other way, ${net > 0 ? 'counter-clockwise' : 'clockwise'}.`;
		return { adjuster, eighths: net, words };
	});
}

/** One counted turn and how to undo it alone. */
export interface LoggedTurn {
	readonly adjuster: string;
	/** "3/8 turn clockwise, 1.2 dB better". */
	readonly words: string;
	/** How to undo it. */
	readonly undo: string;
}

/** The turns of a run, the latest first, with what each gained and how to undo it. */
export function turnLog({ turns }: RunState, language: Language = usualLanguage): readonly LoggedTurn[] {
	const { say } = language;
	return turns.toReversed().map(({ adjuster, eighths, gainDb }) => {
		const sizeDb = Math.abs(gainDb?.value ?? 0).toFixed(1);
		const withGain = (turned: string): string => {
			if (gainDb === null) return turned;
			return gainDb.value < 0 ? say`${turned}, ${sizeDb} dB worse` : say`${turned}, ${sizeDb} dB better`;
		};
		if (eighths === null)
			return {
				adjuster,
				words: withGain(say`turned, not counted`),
				undo: 'Not counted: go by the pencil mark.',
			};
		if (eighths === 0) return { adjuster, words: withGain(say`left where it was`), undo: 'Nothing to undo.' };
		const amount = turnsWords(Math.abs(eighths), language);
		return {
			adjuster,
			words: withGain(eighths > 0 ? say`${amount} clockwise` : say`${amount} counter-clockwise`),
			undo: `Turn ${amount} back the other way, ${eighths > 0 ? 'counter-clockwise' : 'clockwise'}.`,
		};
	});
}
