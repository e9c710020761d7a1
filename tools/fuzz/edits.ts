/** Mutations of a text or of bytes: what a slip of the hand, a broken file or a hostile hand does to a good one. */
import fc from 'fast-check';

/** One change; places are shares of the length, so that a change keeps its meaning while others are taken away. */
type Edit =
	| { readonly kind: 'cut'; readonly at: number; readonly length: number }
	| { readonly kind: 'repeat'; readonly at: number; readonly length: number; readonly times: number }
	| { readonly kind: 'put in'; readonly at: number; readonly bytes: Uint8Array }
	| { readonly kind: 'overwrite'; readonly at: number; readonly bytes: Uint8Array }
	| { readonly kind: 'end'; readonly at: number };

/** What breaks readers of text: ends of numbers, signs of other scripts, marks of other languages. */
const strangeWords = [
	'0',
	'-0',
	'-1',
	'1e308',
	'1e-308',
	'1e999',
	'NaN',
	'Infinity',
	'0x10',
	'007',
	'1_000',
	'1,400',
	'1.400,5',
	'\u2212',
	'\u00b5',
	'\u03bc',
	'\u00bd',
	'\u0660',
	'\ufeff',
	'\u202e',
	'\u0000',
	'\u2028',
	'\ud800',
	'"',
	"'",
	'\\',
	'`',
	'<script>',
	'$(x)',
	'%00',
	'../',
	'__proto__',
	'constructor',
	'=1+1',
	'null',
	'true',
	'{}',
	'[]',
	'\n',
	'\r',
	'\t',
	';',
	',',
	'#',
	'!',
	'\r\n',
	' ',
	'9'.repeat(40),
	'a'.repeat(300),
];

/** A share of a length, every one as likely: numbers drawn by their bits would nearly all lie at 0. */
const share = fc.integer({ min: 0, max: 1_000_000 }).map((part) => part / 1_000_000);

function edit(words: readonly string[]): fc.Arbitrary<Edit> {
	const bytes = fc.oneof(
		{ weight: 4, arbitrary: fc.constantFrom(...words, ...strangeWords).map((word) => Buffer.from(word)) },
		{ weight: 1, arbitrary: fc.uint8Array({ minLength: 1, maxLength: 8 }) },
	);
	return fc.oneof(
		fc.record({ kind: fc.constant('cut' as const), at: share, length: fc.integer({ min: 1, max: 40 }) }),
		fc.record({
			kind: fc.constant('repeat' as const),
			at: share,
			length: fc.integer({ min: 1, max: 60 }),
			times: fc.integer({ min: 1, max: 20 }),
		}),
		fc.record({ kind: fc.constant('put in' as const), at: share, bytes }),
		fc.record({ kind: fc.constant('overwrite' as const), at: share, bytes }),
		fc.record({ kind: fc.constant('end' as const), at: share }),
	);
}

function edited(bytes: Uint8Array, change: Edit): Uint8Array {
	const at = Math.round(change.at * bytes.length);
	const [before, after] = [bytes.subarray(0, at), bytes.subarray(at)];
	switch (change.kind) {
		case 'cut':
			return Buffer.concat([before, after.subarray(change.length)]);
		case 'repeat':
			return Buffer.concat([
				before,
				...Array.from({ length: change.times }, () => after.subarray(0, change.length)),
				after,
			]);
		case 'put in':
			return Buffer.concat([before, change.bytes, after]);
		case 'overwrite':
			return Buffer.concat([before, change.bytes, after.subarray(change.bytes.length)]);
		case 'end':
			return before;
	}
}

/** An input made from one that is kept, by up to eight changes, half of them at the ends of words and numbers. */
function mutated(kept: readonly Uint8Array[], words: readonly string[]): fc.Arbitrary<Uint8Array> {
	const free = fc
		.tuple(fc.nat(kept.length - 1), fc.array(edit(words), { maxLength: 8 }))
		.map(([which, edits]) => edits.reduce(edited, kept[which] as Uint8Array));
	// Two inputs joined in the middle find what neither has.
	const joined = fc
		.tuple(fc.nat(kept.length - 1), fc.nat(kept.length - 1), share, share)
		.map(([one, other, end, begin]) => {
			const [head, tail] = [kept[one] as Uint8Array, kept[other] as Uint8Array];
			return Buffer.concat([
				head.subarray(0, Math.round(end * head.length)),
				tail.subarray(Math.round(begin * tail.length)),
			]);
		});
	const spoken = fc
		.array(fc.constantFrom(...words, ...strangeWords), { maxLength: 6 })
		.map((some) => Buffer.from(some.join(' ')));
	return fc.oneof({ weight: 6, arbitrary: free }, { weight: 1, arbitrary: joined }, { weight: 1, arbitrary: spoken });
}

type Json = null | boolean | number | string | Json[] | { [key: string]: Json };

/** Every place in a value, as the path that leads to it. */
function places(value: Json, path: readonly string[] = []): (readonly string[])[] {
	if (typeof value !== 'object' || value === null) return [path];
	return [path, ...Object.entries(value).flatMap(([key, inner]) => places(inner, [...path, key]))];
}

const strangeValues = fc.oneof(
	fc.constantFrom<Json>(
		null,
		true,
		0,
		-0,
		-1,
		0.5,
		1e308,
		-1e308,
		5e-324,
		1e15,
		2 ** 53,
		'',
		' ',
		[],
		{},
		'__proto__',
		'\u0000',
		'\u202e',
		'<script>',
		'455 kc',
		'0 kc',
	),
	fc.jsonValue({ maxDepth: 2 }) as fc.Arbitrary<Json>,
	fc.string({ unit: 'binary', maxLength: 30 }),
);

interface JsonEdit {
	readonly at: number;
	readonly kind: 'set' | 'take away' | 'copy from';
	readonly from: number;
	readonly value: Json;
}

function editedJson(value: Json, { at, kind, from, value: strange }: JsonEdit): Json {
	const all = places(value);
	const path = all[Math.floor(at * all.length)] ?? [];
	const key = path.at(-1);
	if (key === undefined) return kind === 'set' ? strange : value;
	const copy = structuredClone(value);
	const valueAt = (where: readonly string[]): Json =>
		where.reduce<Json>((inner, step) => (inner as { [key: string]: Json })[step] as Json, copy);
	const holder = valueAt(path.slice(0, -1)) as { [key: string]: Json };
	if (kind === 'take away') {
		if (Array.isArray(holder)) holder.splice(Number(key), 1);
		else delete holder[key];
	} else holder[key] = kind === 'set' ? strange : structuredClone(valueAt(all[Math.floor(from * all.length)] ?? []));
	return copy;
}

const below1 = fc.integer({ min: 0, max: 999_999 }).map((part) => part / 1_000_000);
const jsonEdit: fc.Arbitrary<JsonEdit> = fc.record({
	at: below1,
	kind: fc.constantFrom('set' as const, 'take away' as const, 'copy from' as const),
	from: below1,
	value: strangeValues,
});

/** An input made from one that is kept and is JSON, by up to four changes of its values. */
function mutatedJson(kept: readonly Uint8Array[]): fc.Arbitrary<Uint8Array> {
	const values = kept.flatMap((bytes): Json[] => {
		try {
			return [JSON.parse(Buffer.from(bytes).toString('utf8')) as Json];
		} catch {
			return [];
		}
	});
	return fc
		.tuple(fc.nat(values.length - 1), fc.array(jsonEdit, { minLength: 1, maxLength: 4 }))
		.map(([which, edits]) => Buffer.from(JSON.stringify(edits.reduce(editedJson, values[which] as Json)) ?? 'null'));
}

/** Inputs made from those that are kept. */
export function inputs(
	kept: readonly Uint8Array[],
	words: readonly string[],
	form: 'bytes' | 'json',
): fc.Arbitrary<Uint8Array> {
	const bytes = mutated(kept, words);
	return form === 'bytes'
		? bytes
		: fc.oneof({ weight: 4, arbitrary: mutatedJson(kept) }, { weight: 1, arbitrary: bytes });
}
