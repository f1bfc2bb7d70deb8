/** What forms that are saved as one types have in common. */

/** Everything that a form sends. */
export function contentOf(form: HTMLFormElement): URLSearchParams {
  const content = new URLSearchParams();
  for (const [name, value] of new FormData(form)) if (typeof value === 'string') content.append(name, value);
  return content;
}

/** True for a refusal in words. */
export function isRefusal(answer: unknown): answer is { readonly error: string } {
  return typeof answer === 'object' && answer !== null && 'error' in answer && typeof answer.error === 'string';
}
