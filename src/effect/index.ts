export * from './effect.ts';
export * from './layer.ts';
export * from './parameter.ts';
