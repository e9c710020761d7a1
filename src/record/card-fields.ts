import { setCardSchema } from './set-card.ts';

/** A field of the set card as a form shows it. `whole` and `fraction` are numbers; quantities are `words`, kept as typed. */
export type CardField = { readonly key: string; readonly isNeeded: boolean } & (
	| { readonly kind: 'words' | 'many words' | 'whole' | 'fraction' }
	| { readonly kind: 'choice'; readonly choices: readonly string[] }
	| { readonly kind: 'one' | 'rows'; readonly fields: readonly CardField[] }
);

interface Definition {
	readonly type: string;
	readonly innerType?: Schema;
	readonly element?: Schema;
	readonly shape?: Readonly<Record<string, Schema>>;
	readonly entries?: Readonly<Record<string, string>>;
	readonly checks?: readonly { readonly _zod: { readonly def: { readonly check: string } } }[];
}
interface Schema {
	readonly _zod: { readonly def: Definition };
}

function fieldOf(key: string, schema: Schema): CardField | null {
	const outer = schema._zod.def;
	const isNeeded = outer.type !== 'optional';
	const def = isNeeded ? outer : (outer.innerType as Schema)._zod.def;
	switch (def.type) {
		case 'string':
			return { key, isNeeded, kind: 'words' };
		case 'number':
			return {
				key,
				isNeeded,
				kind: def.checks?.some(({ _zod }) => _zod.def.check === 'number_format') ? 'whole' : 'fraction',
			};
		case 'enum':
			return { key, isNeeded, kind: 'choice', choices: Object.values(def.entries ?? {}) };
		case 'object':
			return { key, isNeeded, kind: 'one', fields: fieldsOf(def) };
		case 'array': {
			const element = (def.element as Schema)._zod.def;
			return element.type === 'object'
				? { key, isNeeded, kind: 'rows', fields: fieldsOf(element) }
				: { key, isNeeded, kind: 'many words' };
		}
		default:
			return null;
	}
}

function fieldsOf(def: Definition): readonly CardField[] {
	return Object.entries(def.shape ?? {})
		.map(([key, schema]) => fieldOf(key, schema))
		.filter((field) => field !== null);
}

/** Every field of the set card but its marks of form and version, read from the card's own schema and in its order. */
export const cardFields: readonly CardField[] = fieldsOf((setCardSchema as unknown as Schema)._zod.def);
