/** What a fit answers: results, evidence of strikes, and how far it has come. */
package org.trebleproof.bench.answer;
