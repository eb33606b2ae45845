import { JSONPathEnvironment, type JSONPathQuery, jsonpath } from "json-p3";

const { selectors: SELECTORS, expressions: EXPRESSIONS } = jsonpath;

const environment = new JSONPathEnvironment({ strict: true, maxRecursionDepth: 200 });

/** A query with what running it costs at most. */
export interface PathExpression {
  readonly query: JSONPathQuery;
  /** Places that are looked at for each place of what the query is applied to; absent: the query follows one way. */
  readonly looks?: number;
}

/**
 * A query (JSONPath, RFC 9535) that comes to an end on any export: it is taken apart before it runs, and one that could
 * find a place more than once, look at every pair of places, or try patterns in texts is refused.
 *
 * @returns words that say what is wrong
 */
export function pathExpression(text: string): PathExpression | string {
  let query: JSONPathQuery;
  try {
    query = environment.compile(text);
  } catch (cause) {
    const words = cause instanceof Error ? cause.message : "unknown reason";
    return `'${text.slice(0, 80)}' is no JSONPath of RFC 9535: ${words}.`;
  }
  const counted: Counted = { descents: 0, filters: 0 };
  const wrong = wrongInQuery(query, counted, false);
  if (wrong !== undefined) return wrong;
  if (query.singularQuery()) return { query };
  return { query, looks: 1 + counted.descents + counted.filters };
}

interface Counted {
  descents: number;
  filters: number;
}

const FILTER_WORDS = "a filter looks at the item alone: no '..', no '$', no filter inside";

function wrongInQuery(
  { segments }: JSONPathQuery,
  counted: Counted,
  isInFilter: boolean,
): string | undefined {
  for (const { selectors, token } of segments) {
    if (token.value === "..") {
      if (isInFilter) return `A query of the map could run without end: ${FILTER_WORDS}.`;
      counted.descents += 1;
    }
    if (counted.descents > 1) return "A query may go down everywhere ('..') once.";
    if (!findsOnce(selectors)) {
      return "A step of a query may find a place more than once: give it one selector, or different names or numbers.";
    }
    for (const selector of selectors) {
      if (!(selector instanceof SELECTORS.FilterSelector)) continue;
      if (isInFilter) return `A query of the map could run without end: ${FILTER_WORDS}.`;
      counted.filters += 1;
      const wrong = wrongInExpression(selector.expression, counted);
      if (wrong !== undefined) return wrong;
    }
  }
  return undefined;
}

/** Different names and different numbers from the front never find the same; any other selector stands alone. */
function findsOnce(selectors: JSONPathQuery["segments"][number]["selectors"]): boolean {
  if (selectors.length === 1) return true;
  const keys = selectors.map((selector) => {
    if (selector instanceof SELECTORS.NameSelector) return `'${selector.name}`;
    return selector instanceof SELECTORS.IndexSelector && selector.index >= 0 ? selector.index : undefined;
  });
  return !keys.includes(undefined) && new Set(keys).size === keys.length;
}

function wrongInExpression(expression: unknown, counted: Counted): string | undefined {
  if (expression instanceof EXPRESSIONS.LogicalExpression)
    return wrongInExpression(expression.expression, counted);
  if (expression instanceof EXPRESSIONS.PrefixExpression) return wrongInExpression(expression.right, counted);
  if (expression instanceof EXPRESSIONS.InfixExpression) {
    return wrongInExpression(expression.left, counted) ?? wrongInExpression(expression.right, counted);
  }
  if (expression instanceof EXPRESSIONS.FunctionExtension) {
    if (expression.name === "match" || expression.name === "search") {
      return `A query with '${expression.name}' could run without end; compare whole values.`;
    }
    return expression.args.map((own) => wrongInExpression(own, counted)).find((wrong) => wrong !== undefined);
  }
  if (expression instanceof EXPRESSIONS.RootQuery)
    return `A query of the map could run without end: ${FILTER_WORDS}.`;
  if (expression instanceof EXPRESSIONS.RelativeQuery) {
    counted.filters += 1;
    return wrongInQuery(expression.path, counted, true);
  }
  return undefined;
}
