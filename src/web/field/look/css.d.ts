// Style sheets are taken in for what they do and give nothing.
declare module '*.css';
