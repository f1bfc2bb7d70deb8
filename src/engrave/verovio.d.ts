/** What is used of the engraving library, which comes without types. */
declare module 'verovio/wasm' {
  const create: (settings?: { readonly print?: (line: string) => void; readonly printErr?: (line: string) => void }) => Promise<object>;
  export { create as default };
}

declare module 'verovio/esm' {
  /** One engraver on one loaded module. */
  export class VerovioToolkit {
    constructor(module: object);
    setOptions(options: Readonly<Record<string, unknown>>): void;
    loadData(data: string): number;
    getPageCount(): number;
    renderToSVG(page: number): string;
    destroy(): void;
  }
}
