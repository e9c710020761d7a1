import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import ts from 'typescript';
import { aims } from '../../src/advice/sheet-step.ts';
import { setCardJsonSchema } from '../../src/record/set-card.ts';

/** What may be chosen on a set card: printed as it stands. */
function cardChoices(part: unknown = setCardJsonSchema()): readonly string[] {
	if (typeof part !== 'object' || part === null) return [];
	return Object.entries(part).flatMap(([name, inner]) =>
		name === 'enum' && Array.isArray(inner) ? inner.filter((choice) => typeof choice === 'string') : cardChoices(inner),
	);
}

/** Every sentence of a file that is said in the person's language, its places written {0}, {1}. */
function sentencesOf(text: string): readonly string[] {
	const found: string[] = [];
	const visit = (node: ts.Node): void => {
		if (ts.isTaggedTemplateExpression(node) && /(?:^|\.)say$/.test(node.tag.getText())) {
			const { template } = node;
			found.push(
				ts.isNoSubstitutionTemplateLiteral(template)
					? template.text
					: template.templateSpans.reduce(
							(whole, { literal }, at) => `${whole}{${at}}${literal.text}`,
							template.head.text,
						),
			);
		}
		ts.forEachChild(node, visit);
	};
	visit(ts.createSourceFile('source.ts', text, ts.ScriptTarget.Latest, true));
	return found;
}

/** Every sentence of a screen: what stands between its marks is read as a program of its own. */
const screenSentences = (text: string): readonly string[] =>
	[...text.matchAll(/\bsay`/g)].flatMap(({ index }) => sentencesOf(text.slice(index)).slice(0, 1));

/** Every sentence of report, bench card, sheet, cautions, gates, triage and tests, in alphabetical order: what another language has to say. */
export function sentences(): readonly string[] {
	const files = readdirSync('src', { recursive: true, encoding: 'utf8' });
	const said = files.flatMap((name) => {
		if (name.endsWith('.svelte')) return screenSentences(readFileSync(join('src', name), 'utf8'));
		return name.endsWith('.ts') && !name.endsWith('.test.ts')
			? sentencesOf(readFileSync(join('src', name), 'utf8'))
			: [];
	});
	return [...new Set([...said, ...cardChoices(), ...aims, 'yes', 'no'])].sort();
}
