/** One way the product can be asked a case's question, and what it answers: a value for each quantity. */
export interface Way {
  readonly way: string;
  readonly values: Readonly<Record<string, number>>;
}
