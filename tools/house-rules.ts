/** House rules that no ordinary lint knows: documented exports, units in names, examples that run, sources that exist, short files. */
import { readdirSync, readFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { pathToFileURL } from 'node:url';
import ts from 'typescript';

export interface RuleResult {
	readonly name: string;
	readonly faults: readonly string[];
}

const documentedFolders = ['src/core', 'src/record', 'src/advice'];
const longestFile = 300;

/** What may end the name of a number: a unit, or a word that says it counts or compares. */
const unitEnding =
	/(Hz|F|H|Ohm|S|Ms|V|A|W|M|Db|Dbfs|Dbv|Dbc|Rad|RadPerS|HzPerM|Deg|Turns|Eighths|Siemens|Watts|Px|PerS|PerTurn|DbPerS|HalfWidths|V2|HzS)$/;
const bareUnit = /^(turns|eighths|decibels|hertz|seconds|volts|farads|henries|ohms|watts)$/;

export function sourceFiles(folder: string): string[] {
	return readdirSync(folder, { withFileTypes: true })
		.flatMap((entry) => {
			const path = `${folder}/${entry.name}`;
			return entry.isDirectory() ? sourceFiles(path) : [path];
		})
		.filter((path) => /\.(ts|svelte)$/.test(path) && !path.endsWith('.d.ts'))
		.sort();
}

const isTest = (path: string) => path.endsWith('.test.ts');

function parse(path: string): ts.SourceFile {
	return ts.createSourceFile(path, readFileSync(path, 'utf8'), ts.ScriptTarget.ES2023, true);
}

function place(file: ts.SourceFile, node: ts.Node): string {
	return `${file.fileName}:${file.getLineAndCharacterOfPosition(node.getStart()).line + 1}`;
}

function exported(statement: ts.Statement): boolean {
	return (
		ts.canHaveModifiers(statement) &&
		(ts.getModifiers(statement) ?? []).some((modifier) => modifier.kind === ts.SyntaxKind.ExportKeyword)
	);
}

function statementName(statement: ts.Statement): string {
	if (ts.isVariableStatement(statement))
		return statement.declarationList.declarations.map((d) => d.name.getText()).join(', ');
	const { name } = statement as unknown as { name?: ts.Identifier };
	return name?.text ?? 'export';
}

/** A type inferred from the documented schema of the same file needs no second explanation. */
function inferredFromSchema(statement: ts.Statement): boolean {
	return ts.isTypeAliasDeclaration(statement) && statement.type.getText().startsWith('z.infer<');
}

function undocumented(file: ts.SourceFile): string[] {
	return file.statements
		.filter(exported)
		.filter((statement) => !inferredFromSchema(statement))
		.filter((statement) => ts.getJSDocCommentsAndTags(statement).length === 0)
		.map((statement) => `${place(file, statement)} ${statementName(statement)} has no doc comment`);
}

/** Numbers without a unit: ratios, counts and places, listed once in tools/plain-numbers.json. */
const plainNumbers: ReadonlySet<string> = new Set(
	Object.values(JSON.parse(readFileSync('tools/plain-numbers.json', 'utf8')) as Record<string, string[]>).flat(),
);

function unitless(file: ts.SourceFile): string[] {
	const faults: string[] = [];
	const visit = (node: ts.Node): void => {
		if (
			(ts.isPropertySignature(node) || ts.isParameter(node)) &&
			node.type?.kind === ts.SyntaxKind.NumberKeyword &&
			ts.isIdentifier(node.name)
		) {
			const name = node.name.text;
			if (!unitEnding.test(name) && !bareUnit.test(name) && !plainNumbers.has(name)) {
				faults.push(
					`${place(file, node)} ${name}: a number's name ends in its unit, or stands in tools/plain-numbers.json`,
				);
			}
		}
		ts.forEachChild(node, visit);
	};
	visit(file);
	return faults;
}

interface Example {
	readonly where: string;
	readonly call: string;
	readonly expected: string;
}

function examples(file: ts.SourceFile): Example[] {
	return file.statements.filter(exported).flatMap((statement) =>
		ts
			.getJSDocTags(statement)
			.filter((tag) => tag.tagName.text === 'example')
			.flatMap((tag) => {
				const comment = ts.getTextOfJSDocComment(tag.comment) ?? '';
				const [, call, expected] = /^([\s\S]*?)\s*\/\/ => (.*)$/m.exec(comment) ?? [];
				return [{ where: place(file, statement), call: call?.trim() ?? '', expected: expected?.trim() ?? '' }];
			}),
	);
}

function agrees(value: unknown, expected: string): boolean {
	if (expected.startsWith('~')) {
		const wanted = Number(expected.slice(1));
		const digits = expected.replace(/^~-?/, '').replace(/e.*$/, '').replace('.', '').replace(/^0+/, '').length;
		return typeof value === 'number' && Math.abs(value - wanted) <= Math.abs(wanted) * 5 * 10 ** -digits;
	}
	// The expected side is written as a literal of the language.
	return JSON.stringify(value) === JSON.stringify(new Function(`return (${expected})`)());
}

async function exampleFaults(path: string): Promise<string[]> {
	const found = examples(parse(path));
	if (found.length === 0) return [];
	const module = (await import(pathToFileURL(resolve(path)).href)) as Record<string, unknown>;
	return found.flatMap(({ where, call, expected }) => {
		if (call === '' || expected === '') return [`${where} example is not of the form: call // => value`];
		try {
			const value: unknown = new Function(...Object.keys(module), `return (${call})`)(...Object.values(module));
			return agrees(value, expected)
				? []
				: [`${where} example ${call} gives ${JSON.stringify(value)}, says ${expected}`];
		} catch (error) {
			return [`${where} example ${call} fails: ${(error as Error).message}`];
		}
	});
}

function sourceFaults(paths: readonly string[]): string[] {
	const known = readFileSync('docs/sources.md', 'utf8');
	return paths.flatMap((path) =>
		[...readFileSync(path, 'utf8').matchAll(/(?:\/\/|\*).*?\[([a-z]+(?:-[a-z0-9]+)*-?[0-9][a-z0-9-]*)\]/g)]
			.map((match) => match[1] ?? '')
			.filter((key) => !known.includes(`[${key}]`))
			.map((key) => `${path} names the source [${key}], which is not in docs/sources.md`),
	);
}

function longFiles(paths: readonly string[]): string[] {
	const excused = readFileSync('ARCHITECTURE.md', 'utf8');
	return paths
		.map((path) => ({ path, lines: readFileSync(path, 'utf8').split('\n').length - 1 }))
		.filter(({ path, lines }) => lines > longestFile && !excused.includes(path))
		.map(({ path, lines }) => `${path} has ${lines} lines; the most is ${longestFile}, or a reason in ARCHITECTURE.md`);
}

/** All house rules with what breaks them. */
export async function houseRules(): Promise<readonly RuleResult[]> {
	const all = sourceFiles('src');
	const documented = documentedFolders.flatMap(sourceFiles).filter((path) => !isTest(path));
	const parsed = documented.map(parse);
	const exampleResults: string[] = [];
	for (const path of documented) exampleResults.push(...(await exampleFaults(path)));
	return [
		{ name: 'exports are documented', faults: parsed.flatMap(undocumented) },
		{ name: 'units end the names of numbers', faults: parsed.flatMap(unitless) },
		{ name: 'examples run', faults: exampleResults },
		{ name: 'sources exist', faults: sourceFaults([...all, ...sourceFiles('test')]) },
		{ name: 'files are short', faults: longFiles([...all, ...sourceFiles('test'), ...sourceFiles(join('tools'))]) },
	];
}
