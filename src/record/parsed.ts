/** What reading an input gave: the value, or a sentence that says what cannot be read, where, and what to give instead. */
export type Parsed<T> = { readonly ok: true; readonly value: T } | { readonly ok: false; readonly words: string };
