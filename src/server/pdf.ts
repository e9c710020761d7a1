import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import type { NodeCompiler } from '@myriaddreamin/typst-ts-node-compiler';
import type { Parsed } from '#record/parsed.ts';
import type { PrintedDocument } from '#report/printed-document.ts';
import { typeset } from '#report/typeset.ts';

const { resolve } = createRequire(import.meta.url);
const faces = [
	'@expo-google-fonts/source-sans-3/400Regular/SourceSans3_400Regular.ttf',
	'@expo-google-fonts/source-sans-3/600SemiBold/SourceSans3_600SemiBold.ttf',
	'@expo-google-fonts/source-serif-4/600SemiBold/SourceSerif4_600SemiBold.ttf',
] as const;

let compiler: NodeCompiler | null = null;

/** The typesetter with the program's own typefaces; loaded when it is first needed, since it is large. */
async function typesetter(): Promise<NodeCompiler> {
	if (compiler === null) {
		const { NodeCompiler } = await import('@myriaddreamin/typst-ts-node-compiler');
		compiler = NodeCompiler.create({ fontArgs: [{ fontBlobs: faces.map((face) => readFileSync(resolve(face))) }] });
	}
	return compiler;
}

/**
 * A document as a tagged PDF with its typefaces in it, after PDF/UA-1 where every letter can be had from a typeface.
 * A letter that no typeface has is left as an empty box. Fails only where the typesetter cannot be loaded.
 */
export async function pdfOf(document: PrintedDocument): Promise<Parsed<Buffer>> {
	const { layout, inputs } = typeset(document);
	const compiled = { mainFileContent: layout, inputs: { ...inputs } };
	try {
		const setter = await typesetter();
		try {
			return { ok: true, value: setter.pdf(compiled, { pdfStandard: 'ua-1' }) };
		} catch {
			return { ok: true, value: setter.pdf(compiled) };
		} finally {
			// What was set before is not kept: a server that runs for days stays small.
			setter.evictCache(0);
		}
	} catch (error) {
		const said = (error instanceof Error ? error.message : String(error)).split('\n')[0];
		return { ok: false, words: `the PDF cannot be made: ${said}; take the HTML file and print it from the browser` };
	}
}
