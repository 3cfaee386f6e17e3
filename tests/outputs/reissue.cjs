// Reads annotations as JSON, one a line, and writes them again by GitHub's own toolkit.
const core = require(require.resolve('@actions/core', { paths: [process.argv[2]] }));
const lines = require('fs').readFileSync(0, 'utf8').split('\n').filter(Boolean);
for (const line of lines) {
  const { name, message, properties } = JSON.parse(line);
  core[name](message, properties);
}
