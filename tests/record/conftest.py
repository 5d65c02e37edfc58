import pytest
from tests.record.signing import Pen


@pytest.fixture(scope="session")
def pen() -> Pen:
    return Pen()
