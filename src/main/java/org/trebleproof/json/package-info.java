/**
 * JSON, and no other room knows of it: small files read whole and their sections key by key, what
 * is wrong said with its place; one writer; an entry added to a file that a person wrote.
 */
package org.trebleproof.json;
