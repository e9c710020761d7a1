import type { RunState } from './run-state.ts';

/** How one adjuster gets back to where it was found. */
export interface WayHome {
	readonly adjuster: string;
	/** Net turn so far in eighths, clockwise positive; `null` when a turn was not counted. */
	readonly eighths: number | null;
	readonly words: string;
}

/** Turns in words: "3/8 turn", "1 and 1/8 turns". */
function turnsWords(eighths: number): string {
	const whole = Math.floor(eighths / 8);
	const rest = eighths % 8;
	const part = rest === 0 ? '' : `${rest}/8`;
	if (whole === 0) return `${part} turn`;
	return part === '' ? `${whole} ${whole === 1 ? 'turn' : 'turns'}` : `${whole} and ${part} turns`;
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
export function turnLog({ turns }: RunState): readonly LoggedTurn[] {
	return turns.toReversed().map(({ adjuster, eighths, gainDb }) => {
		const gained =
			gainDb === null ? '' : `, ${Math.abs(gainDb.value).toFixed(1)} dB ${gainDb.value < 0 ? 'worse' : 'better'}`;
		if (eighths === null)
			return { adjuster, words: `turned, not counted${gained}`, undo: 'Not counted: go by the pencil mark.' };
		if (eighths === 0) return { adjuster, words: `left where it was${gained}`, undo: 'Nothing to undo.' };
		const [way, back] = eighths > 0 ? ['clockwise', 'counter-clockwise'] : ['counter-clockwise', 'clockwise'];
		const amount = turnsWords(Math.abs(eighths));
		return {
			adjuster,
			words: `${amount} ${way}${gained}`,
			undo: `Turn ${amount} back the other way, ${back}.`,
		};
	});
}
