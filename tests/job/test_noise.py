"""Readers given noise: a job or a list of problems comes back, never a failure of ours."""

import pytest

from benchmarks.fuzz_readers import READERS, failures


@pytest.mark.parametrize("reader", READERS)
def test_a_reader_given_spoiled_files_says_what_is_wrong_and_never_fails(reader):
    assert list(failures(reader, count=300, seed=1_000_000)) == []
