/** What is used of the engraving library, which comes without types. */
declare module 'verovio/wasm' {
  const create: (settings?: { readonly print?: (line: string) => void; readonly printErr?: (line: string) => void }) => Promise<object>;
  export default create;
}

declare module 'verovio/esm' {
  export class VerovioToolkit {
    constructor(module: object);
    setOptions(options: Readonly<Record<string, unknown>>): void;
    loadData(data: string): number;
    getPageCount(): number;
    renderToSVG(page: number): string;
    destroy(): void;
  }
}
