// What an entry of the package exports, with the sentences of its docstrings.
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import ts from 'typescript';

export const root = fileURLToPath(new URL('../..', import.meta.url));

/**
 * The exports of each entry, as plain data.
 *
 * @param entries Files by the names of the entries.
 */
export function readExports(entries) {
  const program = ts.createProgram(
    Object.values(entries).map((file) => join(root, file)),
    configOptions(),
  );
  const checker = program.getTypeChecker();
  return Object.fromEntries(
    Object.entries(entries).map(([entry, file]) => {
      const module = checker.getSymbolAtLocation(program.getSourceFile(join(root, file)));
      return [entry, checker.getExportsOfModule(module).map((symbol) => describe(checker, symbol))];
    }),
  );
}

function configOptions() {
  const { config } = ts.readConfigFile(join(root, 'tsconfig.json'), ts.sys.readFile);
  return ts.parseJsonConfigFileContent(config, ts.sys, root).options;
}

function describe(checker, symbol) {
  const target = symbol.flags & ts.SymbolFlags.Alias ? checker.getAliasedSymbol(symbol) : symbol;
  const [declaration] = target.declarations;
  const file = declaration.getSourceFile().fileName.split('/src/')[1];
  const name = symbol.getName();
  const facts = { name, file, position: declaration.pos, text: textOf(checker, target), fields: [] };
  if (target.flags & ts.SymbolFlags.Function) return { ...facts, ...describeFunction(checker, target, name) };
  if (!(target.flags & ts.SymbolFlags.Type))
    return { ...facts, kind: 'value', title: name, fields: fieldsOfValue(checker, target) };
  return { ...facts, kind: 'type', title: name, ...describeType(checker, target, declaration) };
}

function describeFunction(checker, target, name) {
  const [signature] = checker.getSignaturesOfType(checker.getTypeOfSymbol(target), ts.SignatureKind.Call);
  const words = signature.parameters.map((parameter) => describeParameter(checker, parameter));
  const returned = flat(signature.getDeclaration().type?.getText() ?? '');
  const gives = returned === 'void' || returned === '' ? '' : `: ${returned}`;
  const title = `${name}(${words.map(({ word }) => word).join(', ')})${gives}`;
  const fields = words
    .filter(({ text }) => text !== '')
    .map(({ title: said, text }) => ({ title: said, text }));
  return { kind: 'function', title, fields };
}

function describeParameter(checker, symbol) {
  const { name, valueDeclaration } = symbol;
  const type = plainType(checker, symbol, valueDeclaration);
  // One that is taken apart has no name of its own; its type has.
  const called = name.startsWith('__') ? nameOfType(type) : name;
  const word = valueDeclaration.questionToken || valueDeclaration.initializer ? `${called}?` : called;
  const isPlain = /^(number|string)$|^\{|=>/.test(type);
  return {
    word: isPlain ? word : `${word}: ${type}`,
    title: `${word}: ${type}`,
    // To one without a name the compiler gives the words of another.
    text: name.startsWith('__') ? '' : textOf(checker, symbol),
  };
}

function nameOfType(type) {
  const [word] = /^[A-Z]\w*/.exec(type) ?? [];
  return word === undefined ? 'options' : word.charAt(0).toLowerCase() + word.slice(1);
}

/** What is said of the parts of an object that is exported as it is. */
function fieldsOfValue(checker, target) {
  return checker
    .getPropertiesOfType(checker.getTypeOfSymbol(target))
    .filter((part) => ts.isPropertyAssignment(part.valueDeclaration ?? {}) && textOf(checker, part) !== '')
    .map((part) => describeField(checker, part));
}

/** The fields of a type that has some, or what it is short for. */
function describeType(checker, target, declaration) {
  const type = checker.getDeclaredTypeOfSymbol(target);
  if (ts.isTypeAliasDeclaration(declaration) && !hasFields(declaration.type, type)) {
    const { NoTruncation, InTypeAlias } = ts.TypeFormatFlags;
    const spelt = checker.typeToString(type, undefined, NoTruncation | InTypeAlias);
    const written = flat(declaration.type.getText());
    return { means: /typeof/.test(written) ? withoutBuffers(spelt) : written };
  }
  const own = checker
    .getPropertiesOfType(type)
    .filter(({ declarations }) =>
      declarations?.some((one) => one.getSourceFile().fileName.includes('/src/')),
    );
  return { fields: own.map((field) => describeField(checker, field)) };
}

/** Not a choice of several, and not another name for a type that has its fields said elsewhere. */
function hasFields(node, type) {
  if (type.isUnion() || type.isLiteral?.() || ts.isFunctionTypeNode(node) || ts.isTupleTypeNode(node))
    return false;
  const isAnother =
    ts.isTypeReferenceNode(node) && !['Omit', 'Pick', 'Partial'].includes(node.typeName.getText());
  return !isAnother && type.getProperties().length > 0;
}

function describeField(checker, symbol) {
  const [declaration] = symbol.declarations;
  const isOptional = Boolean(symbol.flags & ts.SymbolFlags.Optional);
  const name = `${symbol.getName()}${isOptional ? '?' : ''}`;
  const title =
    ts.isMethodSignature(declaration) || ts.isMethodDeclaration(declaration)
      ? `${symbol.getName()}${isOptional ? '?' : ''}${signatureText(declaration)}`
      : `${name}: ${plainType(checker, symbol, declaration)}`;
  return { name: symbol.getName(), title, isOptional, text: textOf(checker, symbol) };
}

function signatureText({ parameters, type }) {
  return flat(`(${parameters.map((one) => one.getText()).join(', ')}): ${type?.getText() ?? 'void'}`);
}

/** As it is written down, which is the shorter way, or else as it was worked out. */
function plainType(checker, symbol, declaration) {
  if (declaration.type)
    return flat(declaration.type.getText()).replace(/\bWithout<(\w+)>/, "Omit<$1, 'kind'>");
  const type = checker.getNonNullableType(checker.getTypeOfSymbol(symbol));
  return withoutBuffers(checker.typeToString(type, undefined, ts.TypeFormatFlags.NoTruncation));
}

function withoutBuffers(text) {
  return text.replaceAll('<ArrayBufferLike>', '');
}

function textOf(checker, symbol) {
  return flat(ts.displayPartsToString(symbol.getDocumentationComment(checker)));
}

function flat(text) {
  return text.replace(/\s+/g, ' ').trim();
}
