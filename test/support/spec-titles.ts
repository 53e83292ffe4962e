// The titles of the tests in a spec file, read from its text.
import ts from 'typescript';

/** Full titles ("outer > inner") of the tests; a computed title is left out. */
export function titles(name: string, text: string): string[] {
  const found: string[] = [];
  const visit = (node: ts.Node, outer: string): void => {
    const title = titleOf(node);
    if (title?.kind === 'test') found.push(outer + title.text);
    const inside = title?.kind === 'group' ? `${outer}${title.text} > ` : outer;
    ts.forEachChild(node, (child) => visit(child, inside));
  };
  visit(parsed(name, text), '');
  return found;
}

/** Every text that begins a row of a list: how a table of cases names them. */
export function rowNames(name: string, text: string): string[] {
  const found: string[] = [];
  const visit = (node: ts.Node): void => {
    const rows = ts.isArrayLiteralExpression(node) ? node.elements : [];
    for (const row of rows) {
      const first = ts.isArrayLiteralExpression(row) ? row.elements[0] : row;
      if (first && ts.isStringLiteralLike(first)) found.push(first.text);
    }
    ts.forEachChild(node, visit);
  };
  visit(parsed(name, text));
  return found;
}

const parsed = (name: string, text: string) => ts.createSourceFile(name, text, ts.ScriptTarget.Latest, true);

function titleOf(node: ts.Node): { kind: 'group' | 'test'; text: string } | null {
  if (!ts.isCallExpression(node)) return null;
  const [first] = node.arguments;
  const called = /^(describe|it|test)\b/.exec(node.expression.getText())?.[1];
  if (!called || !first || !ts.isStringLiteralLike(first)) return null;
  return { kind: called === 'describe' ? 'group' : 'test', text: first.text };
}
