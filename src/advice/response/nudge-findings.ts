import type { AdjusterVerdict } from '#core/estimate/adjuster-verdict.ts';
import type { StripFit } from '#core/estimate/nudge-fit.ts';
import { stripPlaces } from '#core/estimate/strip-model.ts';
import type { Finding } from './findings.ts';

const kc = (hertz: number): string => (hertz / 1e3).toFixed(1);

/** A circuit that was nearer to the IF than this as found was not off (chosen: about what peaking by hand leaves). */
const leastOffHz = 1e3;

/** Which circuits were off before anything was turned; nothing where all or none were. */
function foundOff(verdicts: readonly AdjusterVerdict[], ifHz: number): readonly Finding[] {
	const off = verdicts.filter(
		({ foundHz }) => Math.abs(foundHz.value - ifHz) > Math.max(leastOffHz, 3 * (foundHz.uncertainty ?? 0)),
	);
	const rest = verdicts.filter((verdict) => !off.includes(verdict));
	if (off.length === 0 || rest.length === 0) return [];
	const words = off.map(({ name, foundHz }) => {
		const offHz = foundHz.value - ifHz;
		return `${name.startsWith('partner of ') ? 'the ' : ''}${name} ${kc(Math.abs(offHz))} kc ${offHz < 0 ? 'low' : 'high'}`;
	});
	const restHz = Math.max(...rest.map(({ foundHz }) => Math.abs(foundHz.value - ifHz)));
	return [
		{
			kind: 'found off',
			words: `As found, before any nudge: ${words.join(', ')}; ${rest.length === 1 ? 'the other one' : `the other ${rest.length}`} within ${kc(Math.max(100, restHz))} kc of the IF.`,
		},
	];
}

/** How many cans had an adjuster turned. */
export function nudgedCans({ circuits }: StripFit): number {
	return new Set(circuits.filter((circuit) => circuit >= 0).map((circuit) => circuit >> 1)).size;
}

/** What nudges show beside where each circuit is: what was off as found, what stays unknown, what to measure for it. */
export function nudgeFindings(strip: StripFit, verdicts: readonly AdjusterVerdict[], ifHz: number): readonly Finding[] {
	const found: Finding[] = [];
	const [first] = verdicts;
	if (nudgedCans(strip) < 2 && first) {
		found.push({
			kind: 'one can only',
			words: `Only one can was nudged: the other's windings stay unknown against each other. Nudge one adjuster of the other can and sweep again.`,
		});
	}
	const unsure = verdicts.filter(({ isAmbiguous }) => isAmbiguous);
	if (unsure.length > 0) {
		const partner = unsure.find(({ nudgeHz }) => nudgeHz === null) ?? (unsure[0] as AdjusterVerdict);
		found.push({
			kind: 'ambiguous',
			words: `Another strip fits nearly as well and puts ${unsure.map(({ name }) => name).join(' and ')} elsewhere. Before turning anything to its mark, nudge the ${partner.name} and sweep once more.`,
		});
	}
	const vague = verdicts.filter(({ isVague, isAmbiguous }) => isVague && !isAmbiguous);
	for (const { name, frequencyHz } of vague) {
		found.push({
			kind: 'vague',
			words: `The ${name} is known to ${kc(frequencyHz.uncertainty ?? 0)} kc only. Before it is turned read three more points about ${kc(frequencyHz.value)} kc, as the set stands now.`,
		});
	}
	if (unsure.length === 0 && nudgedCans(strip) > 1) found.push(...foundOff(verdicts, ifHz));
	const feedback = strip.parameters[stripPlaces.feedback] as number;
	const spread = Math.sqrt(strip.covariance[stripPlaces.feedback * (strip.parameters.length + 1)] as number);
	if (feedback > 3 * spread && feedback * ifHz > 10) {
		found.push({
			kind: 'feedback',
			words:
				'There is feedback through a tube: with every circuit on the IF the curve will lean. Choose the aim with that in mind.',
		});
	}
	return found;
}
