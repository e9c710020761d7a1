import { turnable } from '#advice/draft-step.ts';
import type { SetFacts } from '#record/set-facts.ts';

/** IF curves that instruments can sweep by themselves: each stuck, sealed or broken screw is left alone. */
export function drivenCurves(facts: SetFacts, ofStep: readonly string[], role: 'base' | 'proof') {
	const free = turnable(facts.adjusters).filter(({ id }) => ofStep.includes(id));
	return [
		{
			words: role === 'proof' ? 'Sweep the proof' : 'Sweep the curve',
			does: 'about a minute; AVC and detector are taken out of it',
			plan: { kind: 'IF curve' as const, role, adjusters: [] },
		},
		{
			words: 'Sweep, and nudge each adjuster',
			does: `about three minutes, and you turn ${free.map(({ name }) => name).join(', ')} in turn, an eighth each`,
			plan: { kind: 'IF curve' as const, role: 'base' as const, adjusters: free.map(({ id }) => id) },
		},
	];
}
