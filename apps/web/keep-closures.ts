/** A step of the app's build: of the functions that are made over and over at one place, one is kept. */
import { type Plugin, parseAst } from "vite";

/** As much as is looked at of a node of a syntax tree (ESTree). */
interface SyntaxNode {
  readonly type: string;
  readonly start: number;
  readonly end: number;
  readonly method?: boolean;
  readonly kind?: string;
}

const KEEPER = "virtual:keep-closure";
/** What `withKept` calls. Before its module has run, as in a ring of imports, it finds no list yet. */
export const KEEPER_CODE = `var kept;
function keep$(place, made) {
  kept ??= [];
  if (kept[place] === undefined) kept[place] = made;
  return made;
}
`;

/**
 * A browser's engine throws the quick code of a function away at its next full collection of garbage when no function made
 * at that place lives then; callbacks, and the words of a finding, live only for a moment. While something is dragged that
 * is every few seconds, and hundreds of them are slow again and translated anew, on the core that draws. So the first one
 * made at each place is kept for good, and with it what it has hold of. What the functions do is the same. Measured in
 * decision record 8.
 *
 * @param isOurs which modules are looked after
 */
export function keepClosures(isOurs: (id: string) => boolean): Plugin {
  let places = 0;
  return {
    name: "keep-closures",
    apply: "build",
    enforce: "post",
    resolveId: (id) => (id === KEEPER ? `\0${KEEPER}` : null),
    load: (id) => (id === `\0${KEEPER}` ? `${KEEPER_CODE}export { keep$ };` : null),
    transform(code, id) {
      if (!isOurs(id)) return null;
      const { text, found } = withKept(code, places);
      places += found;
      return found === 0 ? null : { code: `import { keep$ } from "${KEEPER}";\n${text}`, map: null };
    },
  };
}

/** The module (JavaScript) with a call of `keep$` round every function that is made inside another one, numbered from `first`. */
export function withKept(code: string, first: number): { readonly text: string; readonly found: number } {
  const inserts: { readonly at: number; readonly text: string; readonly ends: boolean }[] = [];
  let found = 0;
  visit(parseAst(code) as unknown as SyntaxNode, null, false, ({ start, end }) => {
    inserts.push({ at: start, text: ` keep$(${first + found}, `, ends: false }, { at: end, text: ")", ends: true });
    found += 1;
  });
  // Where one ends just where another begins, the end comes first.
  inserts.sort((a, b) => a.at - b.at || Number(b.ends) - Number(a.ends));
  let text = "";
  let from = 0;
  for (const { at, text: more } of inserts) {
    text += code.slice(from, at) + more;
    from = at;
  }
  return { text: text + code.slice(from), found };
}

/** Finds functions that are made inside functions and are values; a method has no place of its own. */
function visit(node: SyntaxNode, parent: SyntaxNode | null, inside: boolean, see: (made: SyntaxNode) => void): void {
  const isFunction = node.type === "ArrowFunctionExpression" || node.type === "FunctionExpression";
  if (inside && isFunction && !isMethod(parent)) see(node);
  const within = inside || isFunction || node.type === "FunctionDeclaration";
  for (const value of Object.values(node))
    for (const child of Array.isArray(value) ? value : [value]) if (isNode(child)) visit(child, node, within, see);
}

const isNode = (value: unknown): value is SyntaxNode =>
  typeof value === "object" && value !== null && "type" in value && typeof value.type === "string" && "start" in value;

const isMethod = (parent: SyntaxNode | null): boolean =>
  parent !== null &&
  (/^(MethodDefinition|PropertyDefinition|AccessorProperty)$/.test(parent.type) ||
    (parent.type === "Property" && (parent.method === true || parent.kind !== "init")));
