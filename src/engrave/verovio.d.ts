/** What is used of the engraving library, which comes without types. */
declare module 'verovio/wasm' {
  const create: (settings?: { readonly print?: (line: string) => void; readonly printErr?: (line: string) => void }) => Promise<object>;
  export { create as default };
}

declare module 'verovio/esm' {
  /** Level at which the library says nothing. */
  export const LOG_OFF: number;

  /** How much one loaded module says on the console. */
  export function enableLog(level: number, module: object): void;

  /** One engraver on one loaded module. */
  export class VerovioToolkit {
    constructor(module: object);
    setOptions(options: Readonly<Record<string, unknown>>): void;
    /** Which measures the next load takes, counted from 1: "5-8". */
    select(selection: { readonly measureRange: string }): boolean;
    loadData(data: string): number;
    getPageCount(): number;
    redoLayout(options?: object): void;
    renderToSVG(page: number): string;
    destroy(): void;
  }
}
