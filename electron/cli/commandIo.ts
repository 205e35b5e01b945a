/** Where a command writes: results to one stream, trouble to the other. */
export interface CommandIo {
  readonly print: (text: string) => void;
  readonly error: (text: string) => void;
}
