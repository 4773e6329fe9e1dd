// Validates documents, a line of JSON each, with ajv (6 as Debian has it, or a newer one).
//   node validate.js SCHEMA <documents >verdicts      a line each: [] or the errors
const fs = require('fs');
const Ajv = require('ajv').default || require('ajv');
const version = require('ajv/package.json').version;

const newer = Number(version.split('.')[0]) >= 7;
// Newer ones look at the schema itself with care: only what editors know is let by.
const ajv = new Ajv(newer ? { allErrors: true, strict: true, allowUnionTypes: true, strictTypes: false, strictRequired: false }
                          : { allErrors: true });
if (newer) for (const told of ['errorMessage', 'patternErrorMessage']) ajv.addKeyword(told);
const schema = JSON.parse(fs.readFileSync(process.argv[2], 'utf8'));
if (!ajv.validateSchema(schema)) {
  console.error('the schema itself: ' + ajv.errorsText());
  process.exit(2);
}
const fits = ajv.compile(schema);
for (const line of fs.readFileSync(0, 'utf8').split('\n')) {
  if (line === '') continue;
  const good = fits(JSON.parse(line));
  const path = (e) => (e.instancePath !== undefined ? e.instancePath : e.dataPath);
  console.log(JSON.stringify(good ? [] : fits.errors.map((e) => path(e) + ' ' + e.message)));
}
console.error('ajv ' + version);
