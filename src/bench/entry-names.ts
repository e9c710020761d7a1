import type { GateMoment } from '#advice/caution.ts';
import { gateFor } from '#advice/gates.ts';
import { makeSheet } from '#advice/sheet.ts';
import { usualOptions } from '#advice/sheet-options.ts';
import type { SheetOptions } from '#advice/sheet-step.ts';
import type { Language } from '#record/language.ts';
import { setFacts } from '#record/set-facts.ts';
import type { RunState } from './run-state.ts';

/** What a person calls the things of a run that its entries know by id; an id that nothing here has stays what it is. */
export interface EntryNames {
	readonly adjuster: (id: string) => string;
	/** A step by its title on the sheet. */
	readonly step: (id: string) => string;
	/** A question of a step, as the sheet asks it. */
	readonly question: (id: string) => string;
	/** A gate by its title and contact. */
	readonly gate: (id: string) => string;
	/** What a gate asks to be confirmed or measured. */
	readonly gateAsks: (gate: string, id: string) => string;
}

/** The names of a run, by its card and the sheet that is made for it. */
export function entryNames({ card, options }: Pick<RunState, 'card' | 'options'>, language: Language): EntryNames {
	const facts = card === null ? null : setFacts(card);
	const sheet = facts?.ok
		? makeSheet(facts.value, { ...usualOptions, ...(options as Partial<SheetOptions>) }, language)
		: null;
	const steps = sheet?.ok ? sheet.value.steps : [];
	const named = (list: readonly { readonly id: string; readonly words: string }[]) => (id: string) =>
		list.find((one) => one.id === id)?.words ?? id;
	const gateOf = (gate: string) => {
		const [moment = '', contact = ''] = gate.split(': ');
		return facts?.ok ? { ...gateFor(moment as GateMoment, facts.value, contact, language), contact } : null;
	};
	return {
		adjuster: (id) => card?.adjusters?.find((one) => one.id === id)?.name ?? id,
		step: (id) => steps.find((one) => one.id === id)?.title ?? id,
		question: named(steps.flatMap(({ questions }) => questions)),
		gate: (id) => {
			const gate = gateOf(id);
			return gate === null ? id : `${gate.title} (${language.term(gate.contact)})`;
		},
		gateAsks: (gate, id) => {
			const found = gateOf(gate);
			return found === null ? id : named([...found.confirmations, ...found.measurements])(id);
		},
	};
}
