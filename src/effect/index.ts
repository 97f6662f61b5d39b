export * from './contract.ts';
export * from './effect.ts';
export * from './layer.ts';
export * from './nearest.ts';
export * from './parameter.ts';
export * from './runner.ts';
export * from './setting.ts';
export * from './values.ts';
