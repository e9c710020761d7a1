import type { Estimate } from '#core/numeric/estimate.ts';
import { together } from './finding.ts';
import type { Finding } from './standard-test.ts';

/** One figure before and after the work. */
export interface Difference {
	readonly id: string;
	readonly label: string;
	readonly before: Finding;
	readonly after: Finding;
	/** After less before: decibels for volts, watts and ratios (more is more of the quantity), else in its unit; `null` where one is missing. */
	readonly change: Estimate | null;
	readonly standing: 'better' | 'worse' | 'changed' | 'no change that can be told' | 'not comparable';
}

/** Two standard deviations: about one change in twenty is told where there is none. */
const toldFrom = 2;

/**
 * Two findings of one test by the same gear: faults that the gear has both times fall out of the difference.
 * With other gear they count twice.
 */
function differenceOf(before: Finding, after: Finding, isSameGear: boolean): Difference {
	const common = { id: after.id, label: after.label, before, after };
	if (before.value === null || after.value === null) return { ...common, change: null, standing: 'not comparable' };
	if ((before.isRelative || after.isRelative) && !isSameGear)
		return { ...common, change: null, standing: 'not comparable' };
	const chance = (finding: Finding) =>
		together(finding.budget.filter(({ isSystematic }) => !(isSystematic && isSameGear)));
	const perDb = after.unit === 'W' ? 10 : 20;
	const isLevel = after.unit === 'V' || after.unit === 'W';
	const value = isLevel
		? perDb * Math.log10(after.value.value / before.value.value)
		: after.value.value - before.value.value;
	const change = { value, uncertainty: Math.hypot(chance(before), chance(after)) };
	if (Math.abs(value) <= toldFrom * change.uncertainty)
		return { ...common, change, standing: 'no change that can be told' };
	if (after.better === 'neither') return { ...common, change, standing: 'changed' };
	return { ...common, change, standing: value > 0 === (after.better === 'more') ? 'better' : 'worse' };
}

/** Every figure that was found both times. */
export function differences(
	before: readonly Finding[],
	after: readonly Finding[],
	isSameGear: boolean,
): readonly Difference[] {
	return after.flatMap((late) => {
		const early = before.find(({ id }) => id === late.id);
		return early ? [differenceOf(early, late, isSameGear)] : [];
	});
}
