/** Where and how a generator's signal gets into the set. */
export type Connection = 'antenna through dummy' | 'converter grid' | 'loose coupling' | 'loop' | 'off';
