declare const layers: { readonly forbidden: readonly object[]; readonly options: object };
export default layers;
