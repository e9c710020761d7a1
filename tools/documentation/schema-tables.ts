/** A JSON Schema as tables for a reader. */
export interface JsonSchema {
	readonly type?: string;
	readonly const?: unknown;
	readonly enum?: readonly unknown[];
	readonly pattern?: string;
	readonly maxLength?: number;
	readonly minimum?: number;
	readonly maximum?: number;
	readonly maxItems?: number;
	readonly items?: JsonSchema;
	readonly properties?: Readonly<Record<string, JsonSchema>>;
	readonly additionalProperties?: JsonSchema | boolean;
	readonly required?: readonly string[];
	readonly anyOf?: readonly JsonSchema[];
	readonly oneOf?: readonly JsonSchema[];
}

/** What a field is called by the program, and an example; `null` when it has no label. */
export type LabelOf = (list: string, key: string) => { readonly words: string; readonly example: string };

const range = ({ minimum, maximum }: JsonSchema): string => {
	const isWide = Math.abs(minimum ?? 0) > 1e12;
	const least = minimum === undefined || isWide ? '' : ` from ${minimum}`;
	const most = maximum === undefined || maximum > 1e12 ? '' : ` to ${maximum}`;
	return `${least}${most}`;
};

/** What a field may hold, in words. */
function kindWords(schema: JsonSchema, isQuantity: boolean): string {
	const several = schema.anyOf ?? schema.oneOf;
	if (several) return [...new Set(several.map((one) => kindWords(one, false)))].join(' or ');
	if (schema.const !== undefined) return `\`${JSON.stringify(schema.const)}\``;
	if (schema.enum) return schema.enum.map((word) => `\`${String(word)}\``).join(', ');
	if (schema.type === 'string' && schema.pattern?.startsWith('^[a-z0-9]')) return 'id: small letters, digits, hyphens';
	if (schema.type === 'string') return isQuantity ? 'quantity with its unit' : 'text';
	if (schema.type === 'integer') return `whole number${range(schema)}`;
	if (schema.type === 'number') return `number${range(schema)}`;
	if (schema.type === 'array') return `list of ${kindWords(schema.items ?? {}, isQuantity)}`;
	if (schema.type === 'object') return 'object';
	return schema.type ?? 'anything';
}

/** Quantities are the texts of 100 characters in a schema: the length that the parser takes. */
const isQuantity = (schema: JsonSchema): boolean => (schema.items ?? schema).maxLength === 100;

interface Part {
	readonly path: string;
	readonly list: string;
	readonly schema: JsonSchema;
}

function partsOf(schema: JsonSchema, path: string, list: string): readonly Part[] {
	const inner = Object.entries(schema.properties ?? {}).flatMap(([key, field]) => {
		const held = field.type === 'array' ? field.items : field;
		return held?.properties
			? partsOf(held, `${path}${path ? '.' : ''}${key}${field.type === 'array' ? '[]' : ''}`, key)
			: [];
	});
	return [{ path, list, schema }, ...inner];
}

/** Tables of a schema's fields, one for the whole and one for each object inside. */
export function schemaTables(schema: JsonSchema, labelOf: LabelOf | null): string {
	return partsOf(schema, '', '')
		.map(({ path, list, schema: { properties, required } }) => {
			const rows = Object.entries(properties ?? {}).map(([key, field]) => {
				const label = labelOf?.(list, key);
				const kind = kindWords(field, isQuantity(field));
				const example = label?.example ? `, such as \`${label.example}\`` : '';
				const cells = [
					`\`${key}\`${required?.includes(key) ? ' *' : ''}`,
					...(labelOf ? [label?.words === key ? '' : (label?.words ?? '')] : []),
					`${kind}${example}`,
				];
				return `| ${cells.join(' | ')} |`;
			});
			const head = labelOf
				? '| field | on the page | holds |\n| --- | --- | --- |'
				: '| field | holds |\n| --- | --- |';
			return `${path === '' ? '' : `\`${path}\`:\n\n`}${head}\n${rows.join('\n')}`;
		})
		.join('\n\n');
}
