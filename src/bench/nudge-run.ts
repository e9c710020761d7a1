import type { SheetStep } from '#advice/sheet-step.ts';
import { type AvcLaw, avcLaw, inputOf } from '#core/estimate/avc-law.ts';
import { standardTone } from '#core/receiver/signal.ts';
import type { SweepPoint } from '#record/sweep.ts';
import type { SweepRole } from '#record/sweep-reading.ts';
import { stepLevels } from './avc-run.ts';
import type { Bench } from './bench.ts';
import { type SweepPlan, type SweptCurve, sweepIf } from './if-sweep.ts';
import type { Left } from './sweep-hand.ts';
import type { WorkGround } from './work-ground.ts';

/** Curves of the IF with a small turn of one adjuster between each and the next. */
export interface NudgePlan {
	readonly centreHz: number;
	readonly spanHz: number;
	/** Points of the first curve. */
	readonly points: number;
	/** Where the level begins, open-circuit volts rms. */
	readonly levelV: number;
	/** Output at the top, volts: well above noise, well below what the output stage can give. */
	readonly outputV: number;
	/** What the first curve is read for. */
	readonly role: Extract<SweepRole, 'base' | 'proof'>;
	/** Adjusters to be nudged, in order; none: the one curve. */
	readonly adjusters: readonly { readonly id: string; readonly name: string }[];
}

/** How many curves are in the run now. */
export interface CurvesSwept {
	readonly kind: 'curves';
	readonly curves: number;
}

/** A curve after a nudge tells only how circuits moved: fewer points do (chosen). */
const nudgeShare = 0.5;
const fewestPoints = 15;
/** The law is stepped out from so far below the level of the sweep to so far above it, since a nudge may raise the top (chosen). */
const lawBelowDb = 45;
const lawAboveDb = 9;
const lawStepDb = 3;
/** A step that is known worse than this is too near the noise to make the law (chosen). */
const lawWithinDb = 0.5;

const decibels = (ratio: number): number => 20 * Math.log10(ratio);

/** How the reading rises with the input at the top of the curve. */
async function lawAtTop(ground: WorkGround, base: SweptCurve): Promise<AvcLaw | Left> {
	const top = base.points.reduce((best, point) => (point.levelDb > best.levelDb ? point : best));
	const end = await stepLevels(ground, {
		name: 'AVC and detector at the top of the curve',
		frequencyHz: top.frequencyHz,
		leastV: base.levelV * 10 ** (-lawBelowDb / 20),
		mostV: base.levelV * 10 ** (lawAboveDb / 20),
		stepDb: lawStepDb,
	});
	if (end.kind !== 'stepped') return end;
	return avcLaw(end.readings.filter(({ uncertaintyDb }) => uncertaintyDb <= lawWithinDb)) ?? { kind: 'no signal' };
}

/** The curve of the strip alone: each reading turned back into the input at the top that would read the same. Readings that the law does not reach are left out. */
function turnedBack({ points, levelV }: SweptCurve, law: AvcLaw): readonly SweepPoint[] {
	return points.flatMap(({ frequencyHz, levelDb, uncertaintyDb }) => {
		const input = inputOf(law, { value: levelDb, uncertainty: uncertaintyDb });
		return input === null
			? []
			: [{ frequencyHz, levelDb: input.value - decibels(levelV), uncertaintyDb: input.uncertainty }];
	});
}

/**
 * Sweeps the IF, then asks for a small turn of one adjuster after the other and sweeps after each: only the screwdriver is left to the hand.
 * The output is off while a hand turns. AVC and detector are taken out of every curve by their law, stepped out at its top.
 * @param step of the sheet, in which the turns are counted
 */
export async function sweepWithNudges(
	ground: WorkGround,
	bench: Bench,
	step: SheetStep,
	{ role, adjusters, outputV, ...plan }: NudgePlan,
): Promise<CurvesSwept | Left> {
	const parts = 2 + adjusters.length;
	const part = (index: number): WorkGround => ({
		...ground,
		progress: (done, of) => ground.progress(index + done / of, parts),
	});
	const keep = async (curve: SweptCurve, law: AvcLaw, as: SweepRole, adjuster: string | null): Promise<void> => {
		const { sweeps } = await bench.beginSweep(as, adjuster);
		const begun = sweeps.at(-1);
		if (begun) await bench.keepSweepFile(begun.id, ground.meter.name, turnedBack(curve, law));
	};
	const sweep: SweepPlan = { ...plan, ...standardTone, name: 'IF sweep', level: { outputV } };
	const base = await sweepIf(part(0), sweep);
	if (base.kind !== 'swept') return base;
	const law = await lawAtTop(part(1), base);
	if ('kind' in law) return law;
	await keep(base, law, role, null);
	let curves = 1;
	const points = Math.max(fewestPoints, Math.round(nudgeShare * plan.points));
	for (const [index, adjuster] of adjusters.entries()) {
		if ((await ground.turn()) === 'stopped') return { kind: 'stopped' };
		const eighths = await ground.hand.nudge(adjuster);
		if (eighths === null) continue;
		await bench.countTurn(step, adjuster.id, eighths);
		const name = `IF sweep after ${adjuster.id}`.slice(0, 80);
		const end = await sweepIf(part(index + 2), { ...sweep, name, points, levelV: base.levelV, level: 'as it is' });
		if (end.kind !== 'swept') return end;
		await keep(end, law, 'nudge', adjuster.id);
		curves++;
	}
	return { kind: 'curves', curves };
}
